/** A line of a drawing from which blank stretches are left out, as setting-out drawings do between break lines. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** Of what is kept: millimetres, and where it begins in the drawing, px. */
export interface Stretch extends Interval {
  readonly at: number;
}

export interface Axis {
  readonly stretches: readonly Stretch[];
  /** mm for each px. */
  readonly unit: number;
  /** px. */
  readonly length: number;
}

/** Room between two break lines, px. */
export const BREAK = 12;
/** Leaving out less than this saves nothing, px. */
const SPARED = 28;

/** @param wanted what has to be seen, in any order */
export function axisOf(wanted: readonly Interval[], unit: number): Axis {
  const sorted = [...wanted].sort((a, b) => a.from - b.from);
  const kept: { from: number; to: number }[] = [];
  for (const { from, to } of sorted) {
    const last = kept.at(-1);
    if (last && from - last.to < SPARED * unit) last.to = Math.max(last.to, to);
    else kept.push({ from, to });
  }
  let at = 0;
  const stretches = kept.map((interval) => {
    const stretch = { ...interval, at };
    at += (interval.to - interval.from) / unit + BREAK;
    return stretch;
  });
  return { stretches, unit, length: Math.max(0, at - BREAK) };
}

export const endOf = ({ unit }: Axis, { from, to, at }: Stretch): number => at + (to - from) / unit;

/** px; of what is left out, the middle of its break; beyond the ends, the end. */
export function placeOn(axis: Axis, value: number): number {
  let last: Stretch | undefined;
  for (const stretch of axis.stretches) {
    if (value < stretch.from) return last ? stretch.at - BREAK / 2 : stretch.at;
    if (value <= stretch.to) return stretch.at + (value - stretch.from) / axis.unit;
    last = stretch;
  }
  return axis.length;
}
