/** The field card: what a crew does by soil and leaves, and how it tells. Printed on the back of the crew sheet. */

export const FIELD_CARD = [
  { leaves: 'slightly drooping, hazy green', soil: 'dry', act: 'water soon' },
  { leaves: 'drooping, wrinkled', soil: 'dry', act: 'water now' },
  { leaves: 'brown, falling', soil: 'cracked', act: 'water now' },
  { leaves: 'brown margins, not drooping', soil: 'wet', act: 'stop' },
] as const;
/** Of the four rows: read in the manual itself. The card names publishers, the sheet Sources where to find them. */
export const FIELD_CARD_SOURCE = {
  source: "Ohio's construction manual of 2013, item 662",
  publisher: 'Ohio construction manual',
  certainty: 'seen',
} as const;

/** Depth a screwdriver should reach before watering, and a rod after it [mm]: 6 in and 12 in. */
export const PROBES = [
  { what: 'a screwdriver, before', mm: 152.4, act: 'water if it stops short', source: 'saveourwater.com/trees', publisher: 'Save Our Water', certainty: 'seen' },
  { what: 'a rod, after', mm: 304.8, act: 'it should reach this deep', source: 'ruralmessenger.com', publisher: 'Rural Messenger', certainty: 'seen' },
] as const; // prettier-ignore
