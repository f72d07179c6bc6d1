/** Ten everyday questions of an arborist, and more, find the function that answers them. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import english from '../../src/generated/functions.json' with { type: 'json' };
import spanish from '../../src/generated/functions-es.json' with { type: 'json' };
import { found } from '../../src/taskpane/corners/function-search.js';

const first = (list: typeof english.functions, asked: string) => found(list, asked)[0]?.id;

describe('an everyday question finds its function first', () => {
  it.each([
    ['how long does a bag take to drain', 'BAG_HOURS'],
    ['bag drain', 'BAG_HOURS'],
    ['how long bag', 'BAG_HOURS'],
    ['holes', 'BAG_HOURS'],
    ['how much water does a tree need', 'TREE_DEMAND'],
    ['how many holes', 'BAG_OPEN_HOLES'],
    ['when to water next', 'NEXT_DATE'],
    ['how heavy is a full bag', 'WATER_WEIGHT'],
    ['soaker hose run time', 'HOSE_MINUTES'],
    ['how often should I water', 'INTERVAL'],
    ['am I allowed to water today', 'RULE_OPEN'],
    ['how many truck loads', 'TANK_LOADS'],
    ['gallons per inch of trunk', 'RULE_OF_THUMB'],
    ['how much mulch', 'MULCH_VOLUME'],
  ])('%s', (asked, id) => expect(first(english.functions, asked)).toBe(id));

  it.each([
    ['cuánto tarda en vaciarse una bolsa', 'BAG_HOURS'],
    ['cuánta agua necesita un árbol', 'TREE_DEMAND'],
    ['cuándo regar otra vez', 'NEXT_DATE'],
    ['cuánto pesa una bolsa llena', 'WATER_WEIGHT'],
    ['agujeros abiertos', 'BAG_OPEN_HOLES'],
  ])('%s', (asked, id) => expect(first(spanish.functions, asked)).toBe(id));

  it('finds nothing for a word nobody uses, and everything for none', () => {
    expect(found(english.functions, 'xyzzy')).toEqual([]);
    expect(found(english.functions, '  ')).toHaveLength(english.functions.length);
  });
});
