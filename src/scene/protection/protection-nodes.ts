/** Protection as it will be built. */
import type { Federation } from '../../model.js';
import type { Report } from '../../report/schema.js';
import type { ProtectionExtras } from '../geometry-extras.js';
import type { GeometryNode } from '../geometry-nodes.js';

export const protectionNodes = (_federation: Federation, _report: Report): GeometryNode<ProtectionExtras>[] => [];
