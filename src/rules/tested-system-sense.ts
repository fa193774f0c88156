import { angleIn } from '../supports/angles.js';
import { largestValue, requireRange, requireSizeValue, type SizeRange, type SizeValue } from './size-value.js';
import type { Detail } from './tested-detail.js';
import type { LimitsByShape, SectionLimits } from './tested-parts.js';
import type { TestedSystemDocument } from './tested-system.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireSystemSense(source: YamlSource, system: TestedSystemDocument): void {
  requireProof(source, system);
  requireTables(source, [], system);
  requireScope(source, system);
  requireRatings(source, system);
  requireFixings(source, system);
  requireDetails(source, system);
  requireThreeSided(source, system);
  requireSupports(source, system);
  requireCompatible(source, system);
}

/** Where a layer goes between, the duct is not tight against anything. */
function requireThreeSided(source: YamlSource, { scope, layer }: TestedSystemDocument): void {
  for (const [i, { gapAtMost }] of (scope.threeSided ?? []).entries()) {
    if (layer === undefined || gapAtMost < layer.thickness) continue;
    throw source.errorAt(
      ['scope', 'threeSided', i, 'gapAtMost'],
      `a gap of ${gapAtMost} mm takes a layer of ${layer.thickness} mm; such a duct is covered on four sides`,
    );
  }
}

/** Nothing bears more for longer, and a bearer that nobody can work with proves nothing. */
function requireSupports(source: YamlSource, { supports }: TestedSystemDocument): void {
  for (const key of ['rodStress', 'bearerStress'] as const) {
    for (const [i, { upTo, stress }] of (supports?.[key] ?? []).entries()) {
      const before = i > 0 ? supports![key]![i - 1]! : undefined;
      if (!before) continue;
      const path = ['supports', key, i];
      if (upTo <= before.upTo)
        throw source.errorAt([...path, 'upTo'], `steps must ascend by minutes; ${upTo} comes after ${before.upTo}`);
      if (stress > before.stress)
        throw source.errorAt(
          [...path, 'stress'],
          `${stress} N/mm² is allowed up to ${upTo} minutes, but ${before.stress} up to ${before.upTo}; steel bears no more for longer`,
        );
    }
  }
  for (const [i, bearer] of (supports?.bearers ?? []).entries())
    if (!angleIn(bearer))
      throw source.errorAt(
        ['supports', 'bearers', i],
        `"${bearer}" is no equal angle of EN 10056-1, such as L 40x40x4`,
      );
}

/** Only what names its test is tested. */
export function requireProof(
  source: YamlSource,
  { status, evidence }: Pick<TestedSystemDocument, 'status' | 'evidence'>,
): void {
  if (status === 'tested' && !evidence) {
    throw source.errorAt(['status'], 'status "tested" needs evidence: report, laboratory, standard, date and scope');
  }
  if (status !== 'tested' && evidence) {
    throw source.errorAtKey(['evidence'], `evidence belongs to status "tested"; this document is "${status}"`);
  }
}

/** Tables and ranges may stand anywhere in the document; each is looked at by itself. */
export function requireTables(source: YamlSource, path: Path, node: unknown): void {
  if (typeof node !== 'object' || node === null) return;
  if ('bySize' in node || 'value' in node) {
    requireSizeValue(source, path, node as SizeValue);
    return;
  }
  if ('atLeast' in node || 'atMost' in node) requireRange(source, path, node as SizeRange);
  const inner: [PropertyKey, unknown][] = Array.isArray(node) ? [...node.entries()] : Object.entries(node);
  for (const [key, value] of inner) requireTables(source, [...path, key], value);
}

const SHAPES = ['rectangular', 'oval', 'circular'] as const;
const ORIENTATION_OF = { wall: 'walls', floor: 'floors', roof: 'floors' } as const;

function requireScope(source: YamlSource, system: TestedSystemDocument): void {
  const { scope } = system;
  if (SHAPES.every((shape) => scope.duct[shape] === undefined)) {
    throw source.errorAt(['scope', 'duct'], 'no size was given for any shape; add rectangular, circular or oval');
  }
  requireForms(source, ['scope', 'duct'], scope.duct);
  const { sheet, pressure } = scope.duct;
  if (sheet && sheet.atLeast === undefined && sheet.atMost === undefined)
    throw source.errorAt(['scope', 'duct', 'sheet'], 'give "atLeast", or "atMost", or both');
  if (pressure && pressure.overAtMost === undefined && pressure.underAtMost === undefined)
    throw source.errorAt(['scope', 'duct', 'pressure'], 'give "overAtMost", or "underAtMost", or both');
  requireCovered(source, system);
  for (const [i, { kinds }] of scope.barriers.entries()) {
    for (const [j, kind] of (kinds ?? []).entries()) {
      const needed = ORIENTATION_OF[kind];
      if (scope.orientation.includes(needed)) continue;
      throw source.errorAt(
        ['scope', 'barriers', i, 'kinds', j],
        `"${kind}" contradicts orientation: ${scope.orientation.join(', ')}; add "${needed}" there or take it away here`,
      );
    }
  }
}

/** Sections go by width and height, or by their sides whatever way they lie. */
function requireForms(source: YamlSource, path: Path, limits: LimitsByShape): void {
  for (const shape of ['rectangular', 'oval'] as const) {
    const given = limits[shape];
    if (!given) continue;
    const form = ['width', 'height', 'longestSide', 'shortestSide'].filter(
      (key) => given[key as keyof SectionLimits] !== undefined,
    );
    if (['width,height', 'longestSide', 'longestSide,shortestSide'].includes(form.join())) continue;
    throw source.errorAt(
      [...path, shape],
      `a section is limited by width and height, or by longestSide with or without shortestSide; here is ${form.join(' and ') || 'nothing'}`,
    );
  }
}

/** What another construction's test covers, a standard says; and that construction must have been tested. */
function requireCovered(source: YamlSource, { scope }: TestedSystemDocument): void {
  for (const [i, { construction, coveredBy, source: says }] of scope.barriers.entries()) {
    if (coveredBy === undefined) continue;
    const path = ['scope', 'barriers', i, 'coveredBy'];
    if (says === undefined)
      throw source.errorAt(path, `that a test in ${coveredBy} covers ${construction} needs a source`);
    if (scope.barriers.some((row) => row.construction === coveredBy && row.coveredBy === undefined)) continue;
    throw source.errorAt(path, `${coveredBy} was not tested itself: no row of the scope says so`);
  }
}

/** A document that is compatible with itself says nothing. */
function requireCompatible(source: YamlSource, { id, compatibleWith = [] }: TestedSystemDocument): void {
  for (const [i, { system }] of compatibleWith.entries()) {
    if (system === id) throw source.errorAt(['compatibleWith', i, 'system'], 'this is the document itself');
    if (compatibleWith.findIndex((one) => one.system === system) !== i)
      throw source.errorAt(['compatibleWith', i, 'system'], `"${system}" is named twice`);
  }
}

/** More layers can't do less. */
function requireRatings(source: YamlSource, { scope }: TestedSystemDocument): void {
  for (const [i, next] of scope.ratings.entries()) {
    const before = scope.ratings[i - 1];
    if (!before) continue;
    const path = ['scope', 'ratings', i];
    if (next.layers <= before.layers) {
      throw source.errorAt(
        [...path, 'layers'],
        `ratings must ascend by layers; ${next.layers} comes after ${before.layers}`,
      );
    }
    for (const criterion of ['integrity', 'insulation'] as const) {
      if (next[criterion] >= before[criterion]) continue;
      throw source.errorAt(
        [...path, criterion],
        `${next.layers} layers reach ${next[criterion]} minutes of ${criterion}, but ${before.layers} reach ${before[criterion]}; more layers cannot do less`,
      );
    }
  }
}

function requireFixings(source: YamlSource, { fixings, scope }: TestedSystemDocument): void {
  requireOnce(source, 'fixings', fixings);
  for (const [i, { limits, pattern }] of fixings.entries()) {
    const path = ['fixings', i];
    if (SHAPES.every((shape) => limits[shape] === undefined)) {
      throw source.errorAt([...path, 'limits'], 'a fixing needs its limits for one shape of duct at least');
    }
    requireForms(source, [...path, 'limits'], limits);
    if (!pattern.pins && !pattern.straps) {
      throw source.errorAt([...path, 'pattern'], 'a pattern needs pins, or straps, or both');
    }
    for (const shape of SHAPES) {
      if (limits[shape]) requireWithin(source, [...path, 'limits', shape], limits[shape], scope.duct[shape], shape);
    }
  }
}

type ShapeLimits = Partial<SectionLimits> & { readonly diameter?: SizeValue };

/** A fixing holds a protection that was tested only so far. */
function requireWithin(
  source: YamlSource,
  path: Path,
  fixing: ShapeLimits,
  scope: ShapeLimits | undefined,
  shape: string,
): void {
  if (!scope) throw source.errorAt(path, `the fixing allows ${shape} ducts, which the scope does not`);
  const outer = extentOf(scope);
  for (const [name, largest] of Object.entries(extentOf(fixing))) {
    const limit = outer[name as keyof typeof outer];
    if (largest <= limit) continue;
    throw source.errorAt(path, `the fixing allows ${largest} mm, more than the ${limit} mm of the scope`);
  }
}

const extentOf = (limits: ShapeLimits): { long: number; short: number } => {
  const [width, height, side, short, diameter] = [
    limits.width,
    limits.height,
    limits.longestSide,
    limits.shortestSide,
    limits.diameter,
  ].map((value) => (value === undefined ? undefined : largestValue(value)));
  if (diameter !== undefined) return { long: diameter, short: diameter };
  if (width !== undefined && height !== undefined) {
    return { long: Math.max(width, height), short: Math.min(width, height) };
  }
  return { long: side ?? 0, short: short ?? side ?? 0 };
};

function requireDetails(source: YamlSource, system: TestedSystemDocument): void {
  const { details, fixings, scope, examples } = system;
  requireOnce(source, 'details', details);
  for (const [i, detail] of details.entries()) requireGap(source, ['details', i], detail, system);
  const tested = scope.ratings.map(({ layers }) => layers);
  for (const [i, detail] of details.entries()) {
    for (const [j, layers] of (detail.layers ?? []).entries()) {
      if (tested.includes(layers)) continue;
      throw source.errorAt(['details', i, 'layers', j], `no rating was given for ${layers} layers`);
    }
    for (const [j, part] of detail.parts.entries()) {
      if (detail.faces === 'both' || !('faces' in part) || part.faces === 'one') continue;
      throw source.errorAt(['details', i, 'parts', j, 'faces'], 'a detail built from one face has no part on both');
    }
    for (const [j, construction] of (detail.constructions ?? []).entries()) {
      if (scope.barriers.some((barrier) => barrier.construction === construction)) continue;
      throw source.errorAt(['details', i, 'constructions', j], `the scope has no barrier of ${construction}`);
    }
  }
  for (const [i, { fixing, detail, gives, unknown, misses }] of examples.entries()) {
    if (fixing !== undefined && !fixings.some(({ id }) => id === fixing))
      throw source.errorAt(['examples', i, 'fixing'], `the document has no fixing "${fixing}"`);
    if (detail !== undefined && !details.some(({ id }) => id === detail))
      throw source.errorAt(['examples', i, 'detail'], `the document has no detail "${detail}"`);
    if (gives || unknown || misses) continue;
    throw source.errorAt(['examples', i], 'an example expects something: gives, unknown or misses');
  }
}

/** Packing is a part like others; and how thick what passes through is decides how wide its gap is. */
function requireGap(source: YamlSource, path: Path, detail: Detail, { layer }: TestedSystemDocument): void {
  const isPacked = detail.parts.some(({ part }) => part === 'packing');
  if (detail.packing === 'required' && !isPacked)
    throw source.errorAt([...path, 'packing'], 'packing is required, but no part packs');
  if (detail.packing === 'forbidden' && isPacked)
    throw source.errorAt([...path, 'packing'], 'packing is forbidden, but a part packs');
  if (detail.gapDatum === 'passesThrough' && layer === undefined)
    throw source.errorAt([...path, 'gapDatum'], 'what passes through takes room; give "layer" with its thickness');
}

function requireOnce(source: YamlSource, list: string, items: readonly { readonly id: string }[]): void {
  for (const [i, { id }] of items.entries()) {
    if (items.findIndex((item) => item.id === id) === i) continue;
    throw source.errorAt([list, i, 'id'], `id "${id}" is used twice in ${list}`);
  }
}
