/** The page by itself: shows the report that its server has, else waits for models. */
import './ratedrun-viewer.js';

const viewer = document.querySelector('ratedrun-viewer')!;
const served = await fetch('./review/report.json', { method: 'HEAD' }).then(
  ({ ok }) => ok,
  () => false, // opened where nothing is served: models are dropped
);
if (served) viewer.src = './review/';
