/** Texts kept in the workbook by the spreadsheet program, long ones in parts. */
import { ask } from './office-cells.js';

/** Longest text kept in one setting [characters]. */
const PART = 30_000;

/** What stands under the key of a text that is kept in parts. */
interface Parts {
  parts: number;
}
const partsOf = (value: unknown): number =>
  typeof value === 'object' && value !== null && 'parts' in value ? (value as Parts).parts : 0;
const partKey = (key: string, i: number): string => `${key}#${i + 1}`;

function cut(text: string): string[] {
  const out: string[] = [];
  for (let at = 0; at < text.length; at += PART) out.push(text.slice(at, at + PART));
  return out;
}

export const readSetting = (key: string): Promise<string> =>
  ask('reading what is kept in the workbook', async (context) => {
    const { settings } = context.workbook;
    const own = settings.getItemOrNullObject(key);
    own.load('value');
    await context.sync();
    if (own.isNullObject) return '';
    const count = partsOf(own.value);
    if (count === 0) return String(own.value);
    const parts = Array.from({ length: count }, (_, i) =>
      settings.getItemOrNullObject(partKey(key, i)),
    );
    parts.forEach((part) => part.load('value'));
    await context.sync();
    // a part that is gone makes the rest worthless
    return parts.some((p) => p.isNullObject) ? '' : parts.map((p) => String(p.value)).join('');
  });

/** Keeps a text; "" forgets it. */
export const writeSetting = (key: string, value: string): Promise<void> =>
  ask('keeping something in the workbook', async (context) => {
    const { settings } = context.workbook;
    const own = settings.getItemOrNullObject(key);
    own.load('value');
    await context.sync();
    const before = own.isNullObject ? 0 : partsOf(own.value);
    const parts = value.length > PART ? cut(value) : [];
    parts.forEach((part, i) => settings.add(partKey(key, i), part));
    for (let i = parts.length; i < before; i++)
      settings.getItemOrNullObject(partKey(key, i)).delete();
    if (value !== '') settings.add(key, parts.length > 0 ? { parts: parts.length } : value);
    else if (!own.isNullObject) own.delete();
    await context.sync();
  });
