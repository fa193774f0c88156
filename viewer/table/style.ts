/** A schedule: two fields stand over one another in a column, so that sentences get the room. */
import { css } from 'lit';

/** px; rows of one height, so that where each lies follows from its number. */
export const ROW_HEIGHT = { wide: 42, narrow: 76 } as const;
/** px of the table's own width under which sentences get lines of their own. */
export const NARROW = 900;

export const tableStyle = css`
  :host {
    display: flex;
    flex-direction: column;
    background: var(--sheet);
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    gap: 4px 20px;
    padding: 6px 12px;
    border-bottom: 1px solid var(--rule);
    background: var(--page);
  }
  .bar .faces-head {
    padding: 0;
  }
  .bar label {
    display: flex;
    align-items: baseline;
    gap: 8px;
    margin-left: auto;
  }
  .bar input {
    width: 220px;
  }
  [role='grid'] {
    position: relative;
    flex: 1;
    min-height: 0;
    overflow: auto;
    overflow-anchor: none;
    scrollbar-gutter: stable;
  }
  [role='grid']:focus-visible {
    outline-offset: -3px;
  }
  /* The ring is round the row that the keys go from. */
  [role='grid'][aria-activedescendant]:focus-visible {
    outline: none;
  }
  [role='grid']:focus-visible [aria-selected='true'] {
    outline: 3px solid var(--accent);
    outline-offset: -3px;
  }
  .reading:focus-visible {
    outline-offset: -3px;
  }
  [role='row'] {
    display: grid;
    grid-template:
      'outcome tag barrier rating check finding margin' 1fr
      'concession system storey stops check finding margin' 1fr
      / 116px 84px 148px 128px 160px minmax(0, 1fr) 84px;
    column-gap: 10px;
    padding: 3px 12px;
    font-size: 13px;
    line-height: 17px;
  }
  .rows [role='row'] {
    height: 42px;
    border-bottom: 1px solid var(--raised);
    cursor: pointer;
  }
  .rows [role='row']:hover {
    background: var(--page);
  }
  .rows [aria-selected='true'] {
    background: var(--raised);
    box-shadow:
      inset 3px 0 var(--accent),
      inset -3px 0 var(--accent);
  }
  .heads {
    position: sticky;
    top: 0;
    z-index: 1;
    border-bottom: 1px solid var(--rule);
    background: var(--sheet);
  }
  .heads > * {
    display: flex;
    align-items: center;
    gap: 6px;
    min-height: 26px;
    white-space: nowrap;
  }
  .heads button {
    min-height: 24px;
    padding: 0;
    border-bottom-color: transparent;
  }
  .heads button:hover {
    border-bottom: 1px solid var(--ink);
    padding: 0;
  }
  .heads .name {
    font-weight: 700;
  }
  .heads .values {
    color: var(--secondary);
    border-bottom: 1px dotted var(--rule);
  }
  .heads .values.chosen {
    color: var(--accent);
    font-weight: 700;
  }
  [role='gridcell'] {
    overflow: hidden;
    text-overflow: ellipsis;
    white-space: nowrap;
  }
  .outcome {
    grid-area: outcome;
  }
  [role='gridcell'].outcome {
    display: flex;
    gap: 6px;
  }
  .outcome svg {
    flex: none;
  }
  .concession {
    grid-area: concession;
  }
  .tag {
    grid-area: tag;
  }
  .system {
    grid-area: system;
  }
  .barrier {
    grid-area: barrier;
  }
  .storey {
    grid-area: storey;
  }
  .rating {
    grid-area: rating;
  }
  .stops {
    grid-area: stops;
  }
  .check {
    grid-area: check;
  }
  .finding {
    grid-area: finding;
  }
  .margin {
    grid-area: margin;
  }
  .rows .concession,
  .rows .system,
  .rows .storey,
  .rows .stops,
  .rows .check {
    color: var(--secondary);
  }
  .rows .check,
  .rows .finding {
    display: -webkit-box;
    -webkit-box-orient: vertical;
    -webkit-line-clamp: 2;
    white-space: normal;
    overflow-wrap: anywhere;
    align-self: start;
  }
  .rows .margin {
    text-align: right;
  }
  .heads .margin {
    justify-content: flex-end;
  }
  :host([narrow]) [role='row'] {
    grid-template:
      'outcome tag barrier rating margin' 17px
      'concession system storey stops check' 17px
      'finding finding finding finding finding' 1fr
      / 104px 80px minmax(0, 1.2fr) 122px minmax(84px, 1fr);
  }
  :host([narrow]) .heads {
    grid-template-rows: 26px 26px 0;
  }
  :host([narrow]) .heads .finding {
    overflow: hidden;
    min-height: 0;
  }
  :host([narrow]) .rows [role='row'] {
    height: 76px;
  }
  :host([narrow]) .rows .check {
    -webkit-line-clamp: 1;
  }
  .none {
    padding: 24px 12px;
  }
  /* As high as the model's inset beside it, so that nothing lies over the rows. */
  .reading {
    height: 208px;
    padding: 8px 12px;
    overflow: auto;
  }
  :host([inset]) .reading {
    margin-right: 352px;
  }
  .foot {
    border-top: 1px solid var(--rule);
    background: var(--page);
  }
  .reading header {
    display: flex;
    align-items: baseline;
    gap: 8px;
  }
  .reading header svg {
    align-self: center;
  }
  .reading header button {
    margin-left: auto;
  }
  .reading p {
    margin: 4px 0 6px;
    max-width: 75ch;
  }
  .reading dl {
    display: grid;
    grid-template-columns: auto 1fr;
    gap: 2px 16px;
    margin: 0;
  }
  .reading dt {
    color: var(--secondary);
  }
  .reading dd {
    margin: 0;
    max-width: 75ch;
  }
`;
