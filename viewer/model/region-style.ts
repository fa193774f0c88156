/** Words over and under the canvas; as an inset beside the table only the caption. */
import { css } from 'lit';

export const regionStyle = css`
  :host {
    display: grid;
    grid-template-rows: auto auto minmax(0, 1fr) auto;
    height: 100%;
    background: var(--page);
    container-type: size;
  }
  .words {
    display: flex;
    flex-wrap: wrap;
    gap: 0 14px;
    padding: 4px 12px 0;
  }
  .words.small {
    grid-row: 4;
    padding: 2px 12px 4px;
    border-top: 1px solid var(--raised);
    align-items: baseline;
  }
  .words .apart {
    margin-inline-start: auto;
  }
  .words .pair {
    display: flex;
    gap: 0 10px;
  }
  .caption {
    grid-row: 2;
    margin: 0;
    padding: 2px 12px 4px;
  }
  .picture {
    grid-row: 3;
    position: relative;
    overflow: hidden;
    min-height: 0;
  }
  canvas,
  .picture > svg {
    position: absolute;
    inset: 0;
    width: 100%;
    height: 100%;
    display: block;
  }
  canvas {
    touch-action: none;
    /* Tells when the theme changes: see the element. */
    color: var(--page);
    transition: color 1ms;
  }
  canvas.measuring {
    cursor: crosshair;
  }
  canvas:focus-visible {
    outline-offset: -3px;
  }
  .picture > svg {
    pointer-events: none;
  }
  .picture text {
    font: 700 13px/16px var(--font);
    fill: var(--ink);
    stroke: var(--page);
    stroke-width: 4px;
    paint-order: stroke;
  }
  .facts,
  .here {
    position: absolute;
    top: 4px;
    right: 8px;
    width: min(300px, 55%);
    max-height: calc(100% - 12px);
    overflow: auto;
    padding: 6px 10px 8px;
    background: var(--sheet);
    border: 1px solid var(--rule);
  }
  .here {
    left: 8px;
    right: auto;
  }
  .facts p,
  .facts h3,
  .facts ul,
  .here ul,
  .said p {
    margin: 0 0 4px;
    padding: 0;
    list-style: none;
  }
  .facts h3 {
    font-size: 12px;
    line-height: 16px;
  }
  .facts svg {
    vertical-align: -3px;
  }
  .picture[hidden] {
    display: none;
  }
  .said {
    grid-row: 1 / -1;
    overflow: auto;
    padding: 4px 12px;
  }
  .drawing {
    max-width: 480px;
  }
  @container (max-width: 330px) {
    .words,
    .facts,
    .here {
      display: none;
    }
    .caption {
      padding: 2px 6px;
      font-size: 12px;
      line-height: 16px;
      max-height: 36px;
      overflow: hidden;
    }
  }
`;
