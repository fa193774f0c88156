/** What web-ifc is known to draw wrong (measured), so that a mesh of it would be trusted for nothing. */
import type { CurveContext } from './curves.js';
import { num, ref, refs } from './value.js';

const WRONG: Readonly<Record<string, string>> = {
  IFCROUNDEDRECTANGLEPROFILEDEF: 'a rounded profile',
  IFCFIXEDREFERENCESWEPTAREASOLID: 'a solid swept along a curve',
  IFCSWEPTDISKSOLIDPOLYGONAL: 'a disk swept along a curve',
  // Not measured, for want of any model that has them.
  IFCREVOLVEDAREASOLIDTAPERED: 'a bend of changing section',
  IFCSECTIONEDSPINE: 'a solid of changing section',
  IFCSECTIONEDSOLIDHORIZONTAL: 'a solid of changing section',
};
/** Open at their edges: a cut finds and bridges the gaps, but booleans with them go astray. */
const WRONG_IN_BOOLEANS: Readonly<Record<string, string>> = {
  IFCADVANCEDBREP: 'an advanced B-rep',
  IFCADVANCEDBREPWITHVOIDS: 'an advanced B-rep',
};

/** The first part of an item, or of the tree below it, that comes out wrong, in words; null where all come out right. */
export function drawnWrong(context: CurveContext, item: number): string | null {
  const done = new Set<number>();
  const below = (id: number, within: readonly number[]): string | null => {
    // web-ifc follows circles until its memory is full.
    if (within.includes(id)) return 'a part that refers to itself';
    if (done.has(id)) return null;
    done.add(id);
    const own = wrongItself(context, id, within.length === 0);
    if (own) return own;
    for (const part of partsOf(context, id)) {
      const wrong = below(part, [...within, id]);
      if (wrong) return wrong;
    }
    return null;
  };
  return below(item, []);
}

function wrongItself({ file }: CurveContext, id: number, isWhole: boolean): string | null {
  const entity = file.entity(id);
  const known = WRONG[entity] ?? (isWhole ? undefined : WRONG_IN_BOOLEANS[entity]);
  if (known) return known;
  const line = file.line(id);
  if (entity === 'IFCSWEPTDISKSOLID' && num(line?.StartParam) !== undefined) return 'a disk swept along a curve';
  const ratios = file.line(ref(line?.ExtrudedDirection) ?? 0)?.DirectionRatios;
  const isUnit = !Array.isArray(ratios) || Math.abs(Math.hypot(...ratios.map((v) => num(v) ?? 0)) - 1) < 1e-6;
  return isUnit ? null : 'an extrusion whose depth is misread';
}

function partsOf({ file }: CurveContext, id: number): number[] {
  const line = file.line(id);
  return [
    line?.FirstOperand,
    line?.SecondOperand,
    line?.TreeRootExpression,
    line?.SweptArea,
    line?.EndSweptArea,
    line?.ParentProfile,
    line?.Profiles,
  ].flatMap(refs);
}
