import { css } from 'lit';

/** Ruled like a drawing sheet: what is read scrolls, title block and actions stay. */
export const sheetStyles = css`
  :host {
    display: block;
    container-type: size;
    background: var(--sheet);
  }
  .sheet {
    display: grid;
    grid-template-rows: minmax(0, 1fr) auto auto;
    height: 100%;
    overflow-wrap: anywhere;
  }
  .paper {
    overflow: auto;
    padding: 8px 12px 16px;
  }
  h2 {
    font-size: 15px;
    line-height: 20px;
    outline-offset: 0;
  }
  h2 svg {
    vertical-align: -3px;
  }
  h3 {
    margin: 0;
    font-size: 12px;
    line-height: 16px;
    font-weight: 400;
    color: var(--secondary);
  }
  p {
    margin: 0;
  }
  ul {
    margin: 0;
    padding-left: 16px;
  }
  .first {
    display: grid;
    grid-template-columns: minmax(0, 380px) minmax(0, 380px) minmax(264px, 1fr);
    gap: 12px;
    align-items: start;
    margin-top: 8px;
  }
  .first.without {
    display: block;
  }
  .plate {
    display: block;
    width: 100%;
    min-height: 0;
    padding: 0;
    border: 0;
    text-align: left;
    cursor: zoom-in;
  }
  .plate:hover {
    padding: 0;
    border: 0;
    outline: 1px solid var(--secondary);
  }
  .plate .name {
    display: block;
    font-size: 12px;
    line-height: 16px;
    color: var(--secondary);
  }
  ol {
    margin: 0;
    padding: 0;
    list-style: none;
  }
  ol.measured {
    counter-reset: note;
  }
  ol.further {
    margin-top: 4px;
  }
  .note {
    position: relative;
    padding: 4px 0 6px 24px;
    border-top: 1px solid var(--rule);
    counter-increment: note;
  }
  .note::before {
    content: counter(note);
    position: absolute;
    left: 0;
    top: 4px;
    font-weight: 700;
  }
  .further[start='3'] {
    counter-reset: note 2;
  }
  .further[start='1'] {
    counter-reset: note;
  }
  .note > svg {
    display: block;
    max-width: 100%;
    height: auto;
  }
  .value {
    font-size: 22px;
    line-height: 28px;
    font-weight: 700;
  }
  .value .side {
    font-size: 14px;
    font-weight: 400;
  }
  table {
    border-collapse: collapse;
    width: 100%;
  }
  td {
    padding: 2px 12px 2px 0;
    border-bottom: 1px solid var(--raised);
    vertical-align: top;
  }
  .amount {
    padding-right: 0;
    text-align: right;
    white-space: nowrap;
  }
  .block {
    padding: 4px 0 6px;
    border-top: 1px solid var(--rule);
  }
  .concession {
    margin-top: 4px;
    padding-left: 8px;
    border-left: 3px double var(--rule);
  }
  .findings button,
  .places button {
    display: block;
    width: 100%;
    padding: 3px 0;
    text-align: left;
    border-bottom-color: var(--raised);
  }
  .findings button:hover,
  .places button:hover {
    border-bottom: 1px solid var(--ink);
    padding: 3px 0;
  }
  .findings svg,
  .places svg {
    vertical-align: -3px;
  }
  .stamp {
    font-weight: 700;
    border: 2px solid var(--ink);
    padding: 1px 6px;
    display: inline-block;
  }
  .title-block {
    display: grid;
    grid-template-columns: minmax(72px, 1.2fr);
    grid-auto-columns: auto;
    grid-auto-flow: column;
    margin: 0 0 0 auto;
    width: 100%;
    max-width: 960px;
    border-top: 2px solid var(--ink);
  }
  .title-block > div {
    padding: 2px 8px 3px;
    border-left: 1px solid var(--ink);
    min-width: 0;
  }
  .title-block > div:first-child {
    border-left: 0;
  }
  .title-block dt {
    white-space: nowrap;
    font-size: 12px;
    line-height: 14px;
    color: var(--secondary);
  }
  .title-block dd {
    margin: 0;
    line-height: 18px;
    display: -webkit-box;
    -webkit-line-clamp: 2;
    -webkit-box-orient: vertical;
    overflow: hidden;
  }
  .title-block .reference dd,
  .title-block .outcome dd {
    font-weight: 700;
  }
  .title-block .outcome dd {
    white-space: nowrap;
  }
  .title-block svg {
    vertical-align: -3px;
  }
  [aria-disabled='true'] {
    color: var(--secondary);
    border-bottom-style: dotted;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 20px;
    padding: 4px 12px 6px;
    border-top: 1px solid var(--ink);
  }
  /* Too small to be read there: the notes say what they say. */
  @media screen {
    .plate :is(text, circle:has(+ text), rect:not([stroke]):has(+ text, + g + text)) {
      visibility: hidden;
    }
  }
  @container (width < 560px) {
    .first {
      grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    }
    .first .measured {
      grid-column: 1 / -1;
    }
    .title-block {
      grid-auto-flow: row;
      grid-template-columns: repeat(3, minmax(0, 1fr));
    }
  }
`;
