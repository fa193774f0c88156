/** A small program that embeds the viewer: it lists what is worst, and says which elements are selected. */
import './ratedrun-viewer.js';
import type { SelectedPlace } from './host-api.js';

const viewer = document.querySelector('ratedrun-viewer')!;
const part = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;
const worst = part<HTMLOListElement>('worst');
const selected = part('selected');
const elements = part<HTMLUListElement>('elements');
const failed = part<HTMLButtonElement>('failed');
const LISTED = 8;

viewer.addEventListener('ratedrun-open', ({ detail: { report } }) => {
  const tags = report.penetrations.filter(({ outcome }) => outcome === 'failed').map(({ tag }) => tag);
  worst.replaceChildren(...tags.slice(0, LISTED).map((tag) => lineOf(button(tag, () => viewer.select(tag)))));
});

viewer.addEventListener('ratedrun-select', ({ detail }) => {
  selected.textContent = detail ? wordsOf(detail) : 'Nothing is selected.';
  elements.replaceChildren(...(detail?.elements ?? []).map(({ file, globalId }) => lineOf(`${file}: ${globalId}`)));
});

failed.addEventListener('click', () => {
  const isOn = failed.getAttribute('aria-pressed') !== 'true';
  failed.setAttribute('aria-pressed', String(isOn));
  viewer.filter = { outcomes: isOn ? ['failed'] : [] };
});

const wordsOf = ({ penetration, finding }: SelectedPlace): string =>
  [penetration?.tag, finding?.message].filter((words) => words !== undefined).join(': ');

function button(text: string, act: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = text;
  made.addEventListener('click', act);
  return made;
}

function lineOf(content: string | Node): HTMLLIElement {
  const line = document.createElement('li');
  line.append(content);
  return line;
}
