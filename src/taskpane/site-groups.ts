/** Which inputs of the site stand where in the panel. Each stands in one place. */
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

/** Crew, hours and tank, in Kit. */
export const CREW: readonly SiteKey[] = [
  'workDays', 'crews', 'crewSize', 'crewStart', 'crewHours', 'crewTimeWorth', 'driveMinutes', 'driveKmh', 'yardLatitude', 'yardLongitude', 'tankVolume',
  'tankUsable', 'tankRefillMinutes',
]; // prettier-ignore
