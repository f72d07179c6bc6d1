/** Small tables for the functions that plan: an invented site, one dry summer, two means. */
type Row = (string | number)[];

export const TREES: Row[] = [
  ['Tree ID', 'Species', 'Caliper (in)', 'Canopy diameter (ft)', 'Planted', 'Means wanted'],
  ['A1', 'Oak', 2, 5, '2015-03-15', 'soaker'],
];
export const SITE: Row[] = [
  ['Name', 'Value', 'Unit'],
  ['Latitude', 33, 'deg'],
  ['Soil texture', 'loam', ''],
  ['Season from', '2027-06-01', ''],
  ['Season to', '2027-07-31', ''],
];
export const WEATHER: Row[] = [
  ['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'],
  [6, 0.28, 0.3, 0.5],
  [7, 0.3, 0, 0.5],
];
export const ANY_DAY: Row[] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'any', 'allow'],
];
export const KIT: Row[] = [
  ['Device', 'Family', 'Volume (gal)', 'Holes', 'Rated hours', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Price', 'Seasons', 'Stock'],
  ['bag', 'bag', 15, 4, 5, '', '', 25, 3, 0],
  ['hose', 'soaker', '', '', '', 60, 25, 30, 4, 0],
]; // prettier-ignore
export const NO_STAGES: Row[] = [
  ['From', 'Stage'],
  ['2027-01-01', '1'],
];

/** What a plan function is called with, in order; the stages last. */
export const PLAN_CALL: readonly Row[][] = [TREES, SITE, WEATHER, ANY_DAY, KIT, NO_STAGES];
