/** Colours and type of a workbook, as the design of its look has them. */
export const INK = {
  bark: '3B2F2A',
  loam: '6B4F3A',
  water: '0B5C8F',
  mist: 'E6EEF3',
  straw: 'FFF4CF',
  ochre: '8A5A00',
  clay: 'B0431E',
  leaf: '2F6B4F',
  paper: 'FFFFFF',
  sand: 'F6EFE2',
  rule: 'B8AA98',
};
export const FACE = 'Arial';
