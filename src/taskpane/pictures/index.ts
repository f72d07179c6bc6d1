/** The panel's pictures: plain numbers in, a figure out. Loaded when the first is wanted, for the drawing library is large. */
export { coilPicture } from './coil.js';
export { crewWeeksPicture } from './crew-weeks.js';
export { seasonPicture } from './season.js';
export { waterLeftPicture } from './water-left.js';
export { pictureWords, type PictureWords } from './words.js';
