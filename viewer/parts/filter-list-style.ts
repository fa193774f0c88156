import { css } from 'lit';

export const filterListStyle = css`
  :host {
    position: fixed;
    inset: auto;
    width: 300px;
    max-width: calc(100vw - 16px);
    max-height: min(420px, calc(100vh - 16px));
    margin: 0;
    padding: 8px 12px;
    overflow: hidden;
    border: 1px solid var(--rule);
    color: var(--ink);
    background: var(--sheet);
  }
  :host(:popover-open) {
    display: flex;
    flex-direction: column;
    gap: 6px;
  }
  input[type='search'] {
    width: 100%;
  }
  .head {
    display: flex;
    align-items: baseline;
    justify-content: space-between;
    gap: 12px;
  }
  .values {
    flex: 1;
    min-height: 0;
    overflow: auto;
    padding: 3px;
  }
  label {
    display: flex;
    align-items: baseline;
    gap: 8px;
    min-height: 24px;
    padding: 2px 0;
    cursor: pointer;
  }
  label:hover {
    background: var(--raised);
  }
  label input {
    flex: none;
    align-self: center;
    width: 16px;
    height: 16px;
    min-height: 0;
    margin: 0;
    accent-color: var(--accent);
  }
  label span:first-of-type {
    flex: 1;
    overflow-wrap: anywhere;
  }
  .parts {
    display: flex;
    flex-wrap: wrap;
    gap: 6px 16px;
  }
  p {
    margin: 0;
  }
`;
