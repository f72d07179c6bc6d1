/** Which inputs of the site stand where in the panel. Each has one place; wage and price of water stand beside the crew too. */
import type { SiteKey } from '../tables/site-inputs.js';

/** What matters first, in Site. */
export const FIRST: readonly SiteKey[] = [
  'name', 'latitude', 'texture', 'zone', 'climate', 'seasonFrom', 'seasonTo',
]; // prettier-ignore

/** The rest, under "more inputs". */
export const MORE = {
  soil: [
    'elevation', 'plantFactor', 'siteFactor', 'reach', 'rootDepth', 'depletionNew', 'depletionEstablished',
    'substrateAvailable', 'joiningShare', 'overflowToRing',
  ],
  means: [
    'efficiency.bag', 'efficiency.pad', 'efficiency.soaker', 'efficiency.hand', 'efficiency.tanker', 'padRelease',
    'padCover', 'padDecay', 'padReserve',
  ],
  planning: ['toleratedStress', 'topUp', 'blanketRule'],
  money: [
    'currency', 'wage', 'waterPrice', 'margin', 'block1UpTo', 'block1Price', 'block2UpTo', 'block2Price', 'block3Price',
    'mulchDepth', 'mulchRing', 'mulchPrice',
  ],
} as const satisfies Record<string, readonly SiteKey[]>; // prettier-ignore

/** Whether more may be bought, in Kit: a question beside the devices. */
export const BUYING: readonly SiteKey[] = ['stockOnly'];

/** What decides about the crew, in Kit, after its days of the week; when it ends stands below them. */
export const CREW_FIRST: readonly SiteKey[] = ['crews', 'crewSize', 'crewStart', 'crewHours'];

/** Prices a crew's work and water are counted with: beside the crew, and with the other money under Site. One input each. */
export const CREW_MONEY: readonly SiteKey[] = ['wage', 'waterPrice'];

/** Driving and tank, folded below the crew. */
export const DRIVING: readonly SiteKey[] = [
  'crewTimeWorth', 'driveMinutes', 'driveKmh', 'yardLatitude', 'yardLongitude', 'tankUsable', 'tankRefillMinutes', 'tankVolume',
]; // prettier-ignore

/** Crew, hours and tank: what stands in Kit alone. */
export const CREW: readonly SiteKey[] = ['workDays', ...CREW_FIRST, ...DRIVING];

/** Inputs that always are part of the price. */
export const PRICED: readonly SiteKey[] = ['wage', 'waterPrice', 'margin'];
