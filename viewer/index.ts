/** The page by itself: shows the report that its server has, else waits for models. */
import './ratedrun-viewer.js';
import { bindKeys } from './bind-keys.js';
import type { RatedrunViewer } from './ratedrun-viewer.js';
import { bindUrl } from './state/bind-url.js';

const viewer = document.querySelector<RatedrunViewer>('ratedrun-viewer')!;
// The whole page is the viewer's: its address, and the keys when nothing has the focus.
bindUrl(viewer.store, window);
bindKeys(viewer, document);
const served = await fetch('./review/report.json', { method: 'HEAD' }).then(
  ({ ok }) => ok,
  () => false, // opened where nothing is served: models are dropped
);
if (served) {
  viewer.saveTo = './review/brief.yaml';
  viewer.src = './review/';
}
