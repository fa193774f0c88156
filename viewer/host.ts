import './ratedrun-viewer.js';
