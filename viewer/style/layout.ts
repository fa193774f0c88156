/** Where the regions stand: at a desk side by side; on a tablet the section is a row on top, model and sheet take turns. */
import { css } from 'lit';

export const layout = css`
  :host {
    display: block;
    position: relative;
    height: 100%;
    background: var(--page);
    color: var(--ink);
  }
  .regions {
    display: grid;
    height: 100%;
    grid-template:
      'notices notices notices' auto
      'section faces model' 45fr
      'section faces sheet' 55fr
      'status status status' auto / 136px 480px minmax(0, 1fr);
  }
  .regions > * {
    min-width: 0;
    min-height: 0;
    overflow: hidden;
    border: 0 solid var(--rule);
  }
  .notices {
    grid-area: notices;
    max-height: 40vh;
    overflow: auto;
  }
  .section {
    grid-area: section;
    border-right-width: 1px;
  }
  .faces {
    grid-area: faces;
    border-right-width: 1px;
  }
  .model {
    grid-area: model;
  }
  .sheet {
    grid-area: sheet;
    background: var(--sheet);
    border-top-width: 1px;
  }
  .status {
    grid-area: status;
    min-height: 28px;
    border-top-width: 1px;
  }
  .regions[data-faces='table'] {
    grid-template:
      'notices notices' auto
      'section faces' 1fr
      'status status' auto / 136px minmax(0, 1fr);
  }
  .regions[data-faces='table'] .model {
    grid-area: faces;
    place-self: end;
    width: 320px;
    height: 200px;
    margin: 0 16px 8px 0;
    border-width: 1px;
  }
  .regions[data-narrow] {
    grid-template:
      'notices' auto
      'section' auto
      'faces' minmax(0, 1fr)
      'turns' auto
      'turn' minmax(0, 1fr)
      'status' auto / minmax(0, 1fr);
  }
  .regions[data-narrow][data-faces='table'] {
    grid-template:
      'notices' auto
      'section' auto
      'faces' minmax(0, 1fr)
      'status' auto / minmax(0, 1fr);
  }
  .regions[data-narrow] .section,
  .regions[data-narrow] .faces {
    border-right-width: 0;
    border-bottom-width: 1px;
  }
  .regions[data-narrow][data-faces='drawings'] .model,
  .regions[data-narrow] .sheet {
    grid-area: turn;
  }
  .turns {
    grid-area: turns;
    display: flex;
    gap: 16px;
    padding: 4px 12px;
  }
  .held {
    position: absolute;
    inset: 0;
    display: grid;
    place-content: center;
    margin: 0;
    padding: 48px;
    font-size: 18px;
    line-height: 24px;
    text-align: center;
    background: var(--sheet);
    border: 3px solid var(--accent);
    pointer-events: none;
  }
  /* The finding sheet alone, over as many pages as it takes. */
  @media print {
    :host {
      height: auto;
      background: none;
    }
    .regions {
      display: block;
      height: auto;
    }
    .regions:has(.sheet) > :not(.sheet) {
      display: none;
    }
    .regions > .sheet {
      display: block;
      overflow: visible;
      border: 0;
    }
  }
`;
