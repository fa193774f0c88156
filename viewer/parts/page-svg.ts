/** Drawings of the papers as text that fits the page: its colours, its typeface, its size, nothing that its rules forbid. */
import { INK, OUTCOME_COLOURS, PAGE, RAISED, RULE, SECONDARY, SHEET } from '../../src/draw/paper/palette.js';

/** What `tokens.ts` calls the colours of paper. */
const VARIABLES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    sheet: SHEET,
    page: PAGE,
    raised: RAISED,
    ink: INK,
    secondary: SECONDARY,
    rule: RULE,
    failed: OUTCOME_COLOURS.failed,
    'cant-tell': OUTCOME_COLOURS.cantTell,
    passed: OUTCOME_COLOURS.passed,
    inapplicable: OUTCOME_COLOURS.inapplicable,
    untested: OUTCOME_COLOURS.untested,
  }).map(([name, colour]) => [colour.toUpperCase(), `var(--${name})`]),
);

/**
 * A drawing as wide as what holds it, in the colours of the page. Only attributes are changed: text is escaped, so no text
 * of a model looks like one.
 *
 * @param svg as `src/draw/paper` writes it
 */
export function pageSvg(svg: string): string {
  return (
    svg
      // The page allows no styles in markup; typeface and figures are those of the element that holds the drawing.
      .replace(/ (?:style|font-family)="[^"]*"/g, '')
      .replace(/^<svg[^>]*>/, (root) => root.replace(/ (?:width|height)="[^"]*"/g, ''))
      .replace(/="(#[0-9A-Fa-f]{6})"/g, (whole, colour: string) => {
        const variable = VARIABLES.get(colour.toUpperCase());
        return variable ? `="${variable}"` : whole;
      })
  );
}
