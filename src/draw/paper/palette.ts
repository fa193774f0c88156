/** The palette as SVG and CSS write it. Every meaning is also told by a shape or a word: a black and white print says the same. */
import type { Outcome } from '../../model.js';
import * as palette from '../palette.js';

const css = (colour: palette.Rgb): string => `#${palette.hexCode(colour)}`;

export const SHEET = css(palette.SHEET);
export const PAGE = css(palette.PAGE);
export const RAISED = '#ECEAE3';
export const INK = css(palette.INK);
export const SECONDARY = css(palette.SECONDARY);
export const RULE = css(palette.EDGE);

export const OUTCOME_COLOURS: { readonly [O in Outcome]: string } = {
  failed: css(palette.OUTCOME_COLOURS.failed),
  cantTell: css(palette.OUTCOME_COLOURS.cantTell),
  passed: css(palette.OUTCOME_COLOURS.passed),
  inapplicable: css(palette.OUTCOME_COLOURS.inapplicable),
  untested: css(palette.OUTCOME_COLOURS.untested),
};
