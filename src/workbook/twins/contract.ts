/** Twins of the functions about contracts, meters and warranty. */
import { need, option, type Twin } from './parts.js';

/** A range stands better without the brackets that an expression needs. */
const range = (text: string): string => text.replace(/^\((.*)\)$/, '$1');

/** Digits before the point of a reading, as a power of ten: what a meter counts to before it begins again. */
const full = (begin: string): string => `10^LEN(INT(${begin}))`;

export const CONTRACT_TWINS = {
  CONTRACT_GALLONS: {
    // the table without its header row: words above numbers are no ascending column
    args: need('caliper', 'table'),
    formula: (a) => `VLOOKUP(${a['caliper']},${range(a['table']!)},2)`,
  },
  METER_USE: {
    args: [...need('begin', 'end'), option('unit', '"gal"')],
    formula: ({ begin = '', end = '', unit }) =>
      `IF(${end}>=${begin},${end}-${begin},` +
      `IF(2*(${full(begin)}-${begin}+${end})<${full(begin)},${full(begin)}-${begin}+${end},NA()))` +
      `*IF(${unit}="100 ft3",100*1728/231,1)`,
  },
  WARRANTY_END: {
    args: [...need('planted', 'months'), option('uncredited', '0'), option('restart', '0')],
    formula: ({ planted, months, uncredited, restart }) => {
      const start = `IF(${restart}>0,${restart},${planted})`;
      // the same day of the month, or the last one of a shorter month
      return (
        `MIN(DATE(YEAR(${start}),MONTH(${start})+${months},DAY(${start})),` +
        `DATE(YEAR(${start}),MONTH(${start})+${months}+1,0))+${uncredited}`
      );
    },
  },
} satisfies Record<string, Twin>;
