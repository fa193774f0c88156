/** Colours, type and spaces: the palette of the drawings in light, and its counterpart in dark. */
import { css } from 'lit';

const light = css`
    --page: #f6f5f1;
    --sheet: #ffffff;
    --raised: #eceae3;
    --ink: #1f2426;
    --secondary: #5a5f60;
    --rule: #7a7c78;
    --failed: #b03e00;
    --cant-tell: #5b4bc4;
    --passed: #083f3c;
    --inapplicable: #6a6862;
    --untested: #6a6862;
    --accent: #7a1f5c;
    --font: 'Atkinson Hyperlegible Next', 'DejaVu Sans', sans-serif;
    color-scheme: light;
`;

export const tokens = css`
  :host {
    ${light}
  }
  :host([theme='dark']) {
    --page: #14181c;
    --sheet: #1d2328;
    --raised: #283037;
    --ink: #eceeec;
    --secondary: #b4b8b6;
    --rule: #868c8e;
    --failed: #e58234;
    --cant-tell: #8a9bff;
    --passed: #a6f3ea;
    --inapplicable: #a09e98;
    --untested: #a09e98;
    --accent: #f2a3d3;
    color-scheme: dark;
  }
  /* Black ink on white paper, whatever the theme. */
  @media print {
    :host,
    :host([theme='dark']) {
      ${light}
      --page: #ffffff;
      --ink: #000000;
    }
  }
`;

/** For every element of the viewer; colours are inherited from the outermost. */
export const base = css`
  :host {
    box-sizing: border-box;
    font: 14px/20px var(--font);
    font-variant-numeric: tabular-nums;
    color: var(--ink);
  }
  *,
  *::before,
  *::after {
    box-sizing: inherit;
  }
  h2 {
    font-size: 18px;
    line-height: 24px;
    margin: 0;
  }
  button,
  select,
  input,
  textarea {
    font: inherit;
    color: inherit;
  }
  /* Actions are words. */
  button {
    background: none;
    border: 0;
    border-bottom: 1px solid var(--rule);
    padding: 2px 0;
    cursor: pointer;
    min-height: 24px;
  }
  button:hover {
    border-bottom-width: 3px;
    padding-bottom: 0;
  }
  button[aria-pressed='true'],
  button[aria-selected='true'] {
    border-bottom: 3px solid var(--accent);
    padding-bottom: 0;
    font-weight: 700;
  }
  button:disabled {
    color: var(--secondary);
    cursor: default;
  }
  :focus-visible {
    outline: 3px solid var(--accent);
    outline-offset: 2px;
  }
  select,
  input,
  textarea {
    background: var(--sheet);
    border: 1px solid var(--rule);
    padding: 3px 6px;
    min-height: 28px;
  }
  .secondary {
    color: var(--secondary);
  }
  .small {
    font-size: 12px;
    line-height: 16px;
  }
  .hidden {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
`;
