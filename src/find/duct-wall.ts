/**
 * What the outline of a duct is the outside of: its sheet, or the insulation round it. Models draw either, and a gap is
 * tested to the sheet. What decides, in this order:
 * - insulation that is a body of its own round the duct, or an element of its own: then the duct's outline is its sheet;
 * - a hollow profile: its wall is a sheet, or as thick as the insulation that the file tells of, or neither;
 * - the stated size, an inside size by convention: drawn in it to within a sheet, or larger all round by an insulation;
 * - no sign of insulation at all, in type, material, covering, property, name or size: then there is none to draw. Most
 *   files show uninsulated ducts so, and a check that distrusted them all would say nothing about any.
 * Everything else can't be told, and says so.
 */
import { type Fit, outlineOfFit } from '../geometry/fit.js';
import { raised } from '../geometry/frame.js';
import { dot, sub } from '../geometry/vector.js';
import type { AirElement, Body, DuctLayer, DuctWall, Prism, WallLayer } from '../model.js';
import { MOST_SHEET, NOMINAL } from '../tolerances.js';
import { roundLength } from './rounding.js';
import type { Straight } from './straight.js';

export interface WallReading extends DuctWall {
  readonly gapsTo: 'sheet' | 'insulation' | 'unknown';
  /** What gaps are measured to. */
  readonly bodies: readonly Body[];
  /** Sections of the air space, the outside of the sheet and that of the insulation, in the straight's plane. */
  readonly sections: {
    readonly inside: Fit | undefined;
    readonly sheet: Fit | undefined;
    readonly insulation: Fit | undefined;
  };
}

/** What the outline is, why, and how far the sheet lies within it. */
interface Verdict {
  readonly outline: DuctWall['outline'];
  readonly evidence: string;
  readonly inset?: number;
  readonly sheet?: WallLayer;
  readonly insulation?: WallLayer;
}

export function readDuctWall(element: AirElement, straight: Straight | undefined): WallReading {
  const told = element.wall ?? [];
  const verdict = judgeOutline(element, straight, told);
  const { outline, evidence, inset = 0 } = verdict;
  const canInset = straight !== undefined && straight.fit.shape !== 'unknown' && inset * 2 < straight.fit.breadth;
  const shells = straight?.shells;
  const drawn = straight?.bodies ?? element.bodies;
  const outsideInsulation = told.find((l) => l.kind === 'insulation' && l.place !== 'inside');
  const toldLining = told.find((l) => l.kind === 'insulation' && l.place === 'inside');
  const toldSheet = told.find((l) => l.kind === 'sheet' && l.thickness !== undefined);
  const sheet = verdict.sheet ?? asLayer(toldSheet);
  const isInset = outline === 'insulation' && canInset && inset > 0;
  return {
    outline,
    evidence,
    gapsTo: isInset ? 'sheet' : outline,
    sheet,
    insulation: verdict.insulation ?? asLayer(outsideInsulation),
    lining:
      shells?.liningThickness === undefined
        ? asLayer(toldLining)
        : { thickness: roundLength(shells.liningThickness), from: 'geometry' },
    bodies: isInset
      ? [sheetPrism(straight, inset), ...drawn.filter((body) => !straight.section.includes(body))]
      : drawn.filter((body) => !shells?.insulation.includes(body)),
    sections: sectionsOf(straight, verdict, isInset, sheet?.thickness ?? undefined),
  };
}

const asLayer = (told: DuctLayer | undefined): WallLayer | null =>
  told ? { thickness: told.thickness === undefined ? null : roundLength(told.thickness), from: told.from } : null;

const mm = (value: number): string => `${roundLength(value)} mm`;

function judgeOutline(element: AirElement, straight: Straight | undefined, told: readonly DuctLayer[]): Verdict {
  const wall = straight?.inside && (straight.fit.breadth - straight.inside.breadth) / 2;
  const isSheet = wall !== undefined && wall <= MOST_SHEET;
  const hollowSheet: Pick<Verdict, 'sheet'> = isSheet
    ? { sheet: { thickness: roundLength(wall), from: 'geometry' } }
    : {};
  const drawnInsulation = straight?.shells.insulationThickness;
  if (drawnInsulation !== undefined)
    return {
      ...{ outline: 'sheet', evidence: 'its insulation is drawn as a body of its own round it' },
      ...hollowSheet,
      insulation: { thickness: roundLength(drawnInsulation), from: 'geometry' },
    };
  // Casings of dampers and silencers are larger than their nominal size, whatever is round them.
  const isDuct = element.kind === 'segment' || element.kind === 'flexible' || element.kind === 'fitting';
  const excess = straight && isDuct ? excessOverStated(straight.fit, element.stated) : undefined;
  const outside = told.filter(({ kind, place }) => kind === 'insulation' && place !== 'inside');
  const covering = outside.find(({ from }) => from === 'covering');
  const isLarger = (excess ?? 0) > MOST_SHEET + NOMINAL || (wall !== undefined && !isSheet);
  if (covering && !isLarger)
    return { outline: 'sheet', evidence: 'its insulation is an element of its own', ...hollowSheet };
  if (isSheet)
    return { outline: 'sheet', evidence: `its hollow profile is ${mm(wall)} thick, a sheet`, ...hollowSheet };
  const insulation = outside.find(({ thickness }) => thickness !== undefined) ?? outside[0];
  if (!insulation) return withoutInsulation(element, told, wall, excess);
  return withInsulation(insulation, told, wall, excess);
}

function withoutInsulation(
  element: AirElement,
  told: readonly DuctLayer[],
  wall: number | undefined,
  excess: number | undefined,
): Verdict {
  const lining = told.find(({ kind, place }) => kind === 'insulation' && place === 'inside');
  if (wall !== undefined) {
    if (lining) return { outline: 'sheet', evidence: `its wall of ${mm(wall)} is sheet and lining` };
    if (element.material === 'plastic') return { outline: 'sheet', evidence: `its wall is ${mm(wall)} of plastic` };
    return {
      outline: 'unknown',
      evidence: `its wall is ${mm(wall)} thick, no sheet, and nothing says what it is made of`,
    };
  }
  if (excess !== undefined && excess > MOST_SHEET + NOMINAL && !lining)
    return {
      outline: 'unknown',
      evidence: `it is drawn ${mm(excess)} larger all round than it states, and nothing says what with`,
    };
  if (excess !== undefined && Math.abs(excess) <= MOST_SHEET + NOMINAL)
    return { outline: 'sheet', evidence: 'it is drawn in the size that it states, to within a sheet' };
  return { outline: 'sheet', evidence: 'nothing in the model says that it is insulated' };
}

function withInsulation(
  { thickness, place, from }: DuctLayer,
  told: readonly DuctLayer[],
  wall: number | undefined,
  excess: number | undefined,
): Verdict {
  const sheet = told.find(({ kind }) => kind === 'sheet')?.thickness ?? 0;
  const larger = wall ?? excess;
  const how = wall === undefined ? 'it is drawn larger all round than it states' : 'its wall is thick';
  const named = thickness === undefined ? 'its insulation' : `its insulation of ${mm(thickness)}`;
  if (larger !== undefined && place === 'outside') {
    const fits = thickness === undefined ? larger > MOST_SHEET + NOMINAL : isAbout(larger, thickness);
    // As thick as stated; where no thickness is, all that is more than the sheet.
    const inset = thickness ?? larger - sheet;
    if (fits)
      return {
        ...{ outline: 'insulation', evidence: `${how}, by ${mm(larger)}: ${named} is drawn with it`, inset },
        insulation: { thickness: roundLength(inset), from: thickness === undefined ? 'size' : from },
      };
  }
  const isDrawnBare = excess !== undefined && wall === undefined && Math.abs(excess) <= MOST_SHEET + NOMINAL;
  if (isDrawnBare && (thickness === undefined || excess < thickness - NOMINAL))
    return { outline: 'sheet', evidence: `it is drawn in the size that it states, without ${named}` };
  return { outline: 'unknown', evidence: `whether it is drawn with ${named} or without can not be told` };
}

/** The insulation, and a sheet within it that may be drawn or not. */
const isAbout = (drawn: number, insulation: number): boolean =>
  drawn >= insulation - NOMINAL && drawn <= insulation + MOST_SHEET + NOMINAL;

/** How much larger than stated it is drawn, all round; undefined where no whole size is stated, or it is not all round. */
function excessOverStated(fit: Fit, { width, height, diameter }: AirElement['stated']): number | undefined {
  if (fit.shape === 'circular') return diameter === undefined ? undefined : (fit.length - diameter) / 2;
  if (fit.shape === 'unknown' || width === undefined || height === undefined) return undefined;
  const along = (fit.length - Math.max(width, height)) / 2;
  const across = (fit.breadth - Math.min(width, height)) / 2;
  return Math.abs(along - across) <= NOMINAL ? (along + across) / 2 : undefined;
}

function sheetPrism({ axis, direction, plane, fit }: Straight, inset: number): Prism {
  const frame = raised(plane, dot(sub(axis[0], plane.origin), direction));
  return { kind: 'prism', frame, outline: outlineOfFit(fit, inset), voids: [], sweep: sub(axis[1], axis[0]) };
}

const shrunk = (fit: Fit, by: number): Fit => ({ ...fit, length: fit.length - 2 * by, breadth: fit.breadth - 2 * by });

function sectionsOf(
  straight: Straight | undefined,
  { outline, inset = 0, insulation }: Verdict,
  isInset: boolean,
  sheetThickness: number | undefined,
): WallReading['sections'] {
  const none = { inside: undefined, sheet: undefined, insulation: undefined };
  if (!straight || straight.fit.shape === 'unknown' || outline === 'unknown') return none;
  const { fit } = straight;
  const sheet = outline === 'sheet' ? fit : isInset ? shrunk(fit, inset) : undefined;
  const drawnRound = straight.shells.insulationThickness;
  return {
    inside: straight.inside ?? (sheet && sheetThickness ? shrunk(sheet, sheetThickness) : undefined),
    sheet,
    insulation: outline === 'insulation' ? fit : drawnRound && insulation ? shrunk(fit, -drawnRound) : undefined,
  };
}
