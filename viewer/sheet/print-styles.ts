import { css } from 'lit';

/** The sheet on paper: drawings to scale, title block and stamp on every page, without what only a screen is for. */
export const printStyles = css`
  .printed {
    display: none;
  }
  @media print {
    :host {
      container-type: normal;
    }
    /* As a table, head and foot stand on every page. */
    .sheet {
      display: table;
      width: 100%;
      height: auto;
    }
    .paper {
      display: table-row-group;
      overflow: visible;
    }
    .foot {
      display: table-footer-group;
      break-inside: avoid;
    }
    dialog,
    .block .stamp,
    .actions,
    .hint,
    .unsaved,
    details,
    .findings {
      display: none;
    }
    .printed {
      display: table-header-group;
      break-inside: avoid;
    }
    .printed .stamp {
      margin-bottom: 3mm;
    }
    .first {
      display: flex;
      flex-wrap: wrap;
    }
    /* True to scale. */
    .plate {
      width: 126.5mm;
      flex: none;
      break-inside: avoid;
    }
    .first .measured {
      flex: 1 1 60mm;
    }
    .measured .note,
    :is(.note, .block) :is(p, li, tr) {
      break-inside: avoid;
    }
    .title-block {
      margin: 4mm 0 0;
      max-width: none;
      border: 1px solid var(--ink);
      border-top-width: 2px;
      break-inside: avoid;
    }
  }
`;
