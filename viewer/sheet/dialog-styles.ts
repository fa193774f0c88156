import { css } from 'lit';

/** What opens over the page: forms, and the drawings as large as they can be read. */
export const dialogStyles = css`
  dialog {
    max-width: min(480px, 92vw);
    padding: 12px 16px;
    border: 1px solid var(--ink);
    background: var(--sheet);
    color: var(--ink);
  }
  dialog.drawings {
    max-width: min(1280px, 98vw);
    width: 98vw;
  }
  .pair {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(560px, 100%), 1fr));
    gap: 12px;
    margin-top: 8px;
  }
  figure {
    margin: 0;
  }
  figcaption {
    font-size: 12px;
    line-height: 16px;
    color: var(--secondary);
  }
  .ends {
    text-align: right;
  }
  dialog::backdrop {
    background: rgb(0 0 0 / 40%);
  }
`;
