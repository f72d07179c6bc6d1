/** Numbers in fields that go over to other units: shown with few digits, kept whole, so that going back gives what was typed. */
import { typedValue, type Formats } from './format.js';

export class ExactNumbers<Key> {
  private readonly kept = new Map<Key, { shown: string; value: number }>();

  /**
   * What a field shows after a change of units.
   *
   * @param shown - what it shows now; what is no number stays
   * @param change - from the old unit to the new one
   */
  changed(key: Key, shown: string, change: (value: number) => number, f: Formats): string {
    const known = this.kept.get(key);
    const value = known?.shown === shown ? known.value : typedValue(shown);
    if (typeof value !== 'number') return shown;
    const now = change(value);
    const text = f.plain(now);
    this.kept.set(key, { shown: text, value: now });
    return text;
  }
}
