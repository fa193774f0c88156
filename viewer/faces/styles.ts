/** How drawings of barriers look: line widths of ISO 128 at 96 px per inch, colours of the page. */
import { css } from 'lit';

export const facesStyle = css`
  :host {
    display: flex;
    flex-direction: column;
    height: 100%;
  }
  .region {
    display: contents;
  }
  .scroll {
    flex: 1;
    min-height: 0;
    overflow: auto;
    overflow-anchor: none;
    scroll-padding-top: 76px;
    padding: 0 12px;
  }
  .legend,
  .said {
    margin: 0;
    padding: 0 12px 4px;
  }
  .said {
    font-weight: 700;
  }
  .empty {
    padding: 24px 12px;
  }
  .scroll > p {
    margin: 24px 0 16px;
  }
  .spacer,
  .row {
    display: block;
  }
  .row {
    overflow: visible;
  }
  .patterns {
    position: absolute;
  }
  .storey {
    height: 32px;
    display: flex;
    justify-content: space-between;
    align-items: end;
    border-bottom: 3px solid var(--ink);
    overflow: hidden;
    white-space: nowrap;
  }
  .storey h3,
  .head h3 {
    margin: 0;
    font-size: 16px;
    line-height: 24px;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .head {
    position: sticky;
    top: 0;
    left: 0;
    z-index: 1;
    background: var(--page);
    height: 76px;
    padding-top: 10px;
    overflow: hidden;
    white-space: nowrap;
  }
  .head div {
    display: flex;
    justify-content: space-between;
    gap: 12px;
  }
  .head p {
    margin: 0;
    overflow: hidden;
    text-overflow: ellipsis;
  }
  .head button {
    flex: none;
  }
  .head.selected h3 {
    text-decoration: underline 3px var(--accent);
    text-underline-offset: 4px;
  }
  .scale {
    flex: none;
    display: flex;
    align-items: center;
    gap: 6px;
  }
  .rows {
    padding-bottom: 12px;
  }
  .row > path {
    pointer-events: none;
  }
  .reach {
    fill: none;
    stroke: transparent;
    stroke-width: 12;
  }
  .edge,
  .level,
  .break,
  .thin,
  .service {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1;
  }
  .edge {
    stroke-width: 2;
  }
  .level {
    stroke-width: 3;
  }
  .thin,
  .break {
    stroke: var(--secondary);
  }
  .service {
    fill: var(--sheet);
    stroke: var(--secondary);
  }
  .opening {
    fill: var(--sheet);
    stroke: var(--ink);
    stroke-width: 1;
  }
  .duct {
    fill: var(--sheet);
    stroke-width: 2;
  }
  .outer,
  .between {
    fill: none;
    stroke: var(--accent);
    stroke-width: 10;
  }
  .between {
    stroke: var(--sheet);
    stroke-width: 6;
  }
  .faint .opening,
  .faint .duct {
    stroke: var(--rule);
    stroke-width: 1;
  }
  .place {
    cursor: pointer;
    outline: none;
  }
  .place:hover .duct {
    stroke-width: 4;
  }
  .ring {
    fill: none;
  }
  .place:focus-visible .ring {
    stroke: var(--accent);
    stroke-width: 3;
  }
  .label {
    fill: var(--page);
  }
  .selected .label,
  .place:focus-visible .label {
    stroke: var(--accent);
    stroke-width: 2;
  }
  text {
    font-size: 12px;
    fill: var(--ink);
  }
  .tag {
    font-weight: 700;
  }
  .action {
    text-decoration: underline;
  }
  .revision {
    fill: var(--page);
    stroke: var(--ink);
    stroke-width: 1;
  }
  .dimension path {
    fill: none;
    stroke: var(--failed);
    stroke-width: 1.5;
  }
  .dimension rect {
    fill: var(--page);
    stroke: var(--failed);
  }
`;
