/** What the grid's library holds of formulas it has read; src/desk/formula-brackets.ts has it let go. */
import { describe, expect, it } from 'vitest';
import { formulas } from '../../src/desk/grid-engine.js';

const { LexerTreeBuilder } = formulas;

const noted = (builder: formulas.LexerTreeBuilder): number =>
  (builder as unknown as { _openBracketNormalIndexStack: unknown[] })._openBracketNormalIndexStack
    .length;

describe('the reader of formulas', () => {
  it('keeps no brackets of formulas it has read', () => {
    const builder = new LexerTreeBuilder();
    for (let i = 0; i < 50; i++) builder.treeBuilder(`=(A${i}+1)*((B${i}-2)/3)`, false);
    // its own last formula has three
    expect(noted(builder)).toBeLessThanOrEqual(3);
  });

  it('still reads a percent sign behind brackets, whatever was read before', () => {
    const builder = new LexerTreeBuilder();
    const read = (formula: string): string => {
      const tree = builder.treeBuilder(formula, false);
      return JSON.stringify(tree instanceof formulas.LexerNode ? tree.serialize() : tree);
    };
    const share = '{"token":"%","st":8,"ed":8,"children":["(","A1","+","B1",")"]}';
    expect(read('=2*(A1+B1)%')).toContain(share);
    read('=(A2+1)*((B2-2)/3)');
    expect(read('=2*(A1+B1)%')).toContain(share);
  });
});
