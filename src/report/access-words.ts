/** Access openings that are there and those that are proposed, in the words of tables. */
import type { Vec3 } from '../model.js';
import { number } from '../words/text.js';
import type { Report } from './schema.js';

export interface AccessRow {
  readonly run: string;
  readonly state: 'there' | 'proposed';
  readonly what: string;
  readonly at: string;
  readonly side: string;
  /** mm. */
  readonly size: string;
  readonly why: string;
  readonly source: string;
}

/** An empty table would be a page for nothing. */
export const hasAccess = ({ access, proposedPanels }: Report): boolean =>
  proposedPanels.length > 0 || access.some(({ panels }) => panels.length > 0);

/** Run by run; what is proposed stands after what is there. */
export function accessWords({ runs, access, proposedPanels, penetrations }: Report): AccessRow[] {
  const tags = new Map(penetrations.map(({ id, tag }) => [id, tag]));
  const systems = new Map(runs.map(({ id, system }) => [id, system]));
  const runWords = (id: string): string => {
    const system = systems.get(id);
    return system ? `${system} (${id})` : id;
  };
  return access.flatMap(({ run, panels }) => [
    ...panels.map(
      (panel): AccessRow => ({
        run: runWords(run),
        state: 'there',
        what: panel.name || panel.globalId,
        at: placeWords(panel.at),
        side: panel.side ?? '',
        size: panel.width === null || panel.height === null ? '' : `${number(panel.width)} × ${number(panel.height)}`,
        why: panel.barrier
          ? `${number(panel.barrier.distance)} from the face at ${tags.get(panel.barrier.penetration) ?? panel.barrier.penetration}`
          : '',
        source: panel.evidence,
      }),
    ),
    ...proposedPanels
      .filter((one) => one.run === run)
      .map(
        (one): AccessRow => ({
          run: runWords(run),
          state: 'proposed',
          what: 'access panel',
          at: placeWords(one.at),
          side: '',
          size: one.size === null ? '' : `${number(one.size)} × ${number(one.size)} at least`,
          why: one.reason,
          source: one.source,
        }),
      ),
  ]);
}

const placeWords = (at: Vec3): string => at.map((x) => number(Math.round(x))).join(', ');
