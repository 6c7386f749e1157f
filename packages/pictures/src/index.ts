export { chainPicture } from './chain.js';
export { clockingPicture } from './clocking.js';
export { facePicture } from './face.js';
export { layoutPicture } from './layout.js';
export { holePath, platePicture } from './plate.js';
export { type ReadingTouch, readingTouch } from './reading-lines.js';
export { sectionPicture } from './section.js';
export { settingPicture } from './setting.js';
export { sketchPicture, sketchPlaces } from './sketch.js';
