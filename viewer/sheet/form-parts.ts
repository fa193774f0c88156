/** What the forms of the sheet have in common: fields with their words and faults, and how they look. */
import { css, html, nothing, type TemplateResult } from 'lit';

export const formStyles = css`
  form {
    display: grid;
    gap: 8px;
    width: min(440px, 80vw);
  }
  h2 {
    outline-offset: 0;
  }
  p {
    margin: 0;
  }
  label,
  legend {
    display: block;
    padding: 0;
    font-size: 12px;
    line-height: 16px;
    color: var(--secondary);
  }
  fieldset {
    border: 0;
    margin: 0;
    padding: 0;
  }
  fieldset label {
    display: flex;
    gap: 6px;
    align-items: center;
    font-size: 14px;
    line-height: 20px;
    color: var(--ink);
    min-height: 28px;
  }
  input[type='radio'] {
    min-height: 0;
    accent-color: var(--accent);
  }
  input:not([type='radio']),
  select,
  textarea {
    width: 100%;
  }
  :is(input, select, textarea):focus-visible {
    outline-offset: 0;
  }
  .fault {
    margin-top: 2px;
    padding-left: 6px;
    border-left: 3px solid var(--failed);
  }
  .ends {
    display: flex;
    gap: 20px;
    justify-content: flex-end;
  }
  .main {
    font-weight: 700;
    border-bottom-color: var(--accent);
  }
  .rests {
    border: solid var(--rule);
    border-width: 1px 0;
    padding: 4px 0;
  }
`;

interface Field {
  readonly name: string;
  readonly label: string;
  readonly value?: string;
  readonly fault?: string | undefined;
  readonly type?: 'text' | 'date' | 'lines';
  readonly longest?: number;
  readonly autocomplete?: 'name' | 'off';
  readonly hint?: string;
}

/** One that is wrong says so in its own line, which belongs to it for those who can't see it too. */
export function field({
  name,
  label,
  value = '',
  fault,
  type = 'text',
  autocomplete = 'off',
  hint,
}: Field): TemplateResult {
  const described = [fault === undefined ? '' : `${name}-fault`, hint === undefined ? '' : `${name}-hint`]
    .join(' ')
    .trim();
  const invalid = String(fault !== undefined);
  return html`<div>
    <label for=${name}>${label}</label>
    ${
      type === 'lines'
        ? html`<textarea id=${name} name=${name} rows="3" .value=${value} aria-invalid=${invalid} aria-describedby=${described || nothing}></textarea>`
        : html`<input id=${name} name=${name} type=${type} .value=${value} autocomplete=${autocomplete} aria-invalid=${invalid} aria-describedby=${described || nothing} />`
    }
    ${hint === undefined ? nothing : html`<p id="${name}-hint" class="secondary small">${hint}</p>`}
    ${fault === undefined ? nothing : html`<p id="${name}-fault" class="fault">${fault}</p>`}
  </div>`;
}

/** What was typed into a form, by the names of its fields. */
export function typedIn(form: HTMLFormElement): (name: string) => string {
  const data = new FormData(form);
  return (name) => {
    const value = data.get(name);
    return typeof value === 'string' ? value : '';
  };
}

/** To the first field that is wrong, so that it is heard. */
export const focusFault = (root: ParentNode): void => root.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
