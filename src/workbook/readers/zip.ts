/**
 * The container of a workbook, read with care: what its directory says is checked before anything is unpacked, and what
 * is unpacked is counted while it is. Unpacking and check sums are fflate's. Its readers of whole containers are not used:
 * `unzipSync` does not tell which parts are behind a password, checks no sum, and hands out a part cut off where the
 * directory lies about its size; `Unzip` does not look at the directory at all. So the directory is read here.
 * Source: APPNOTE of the ZIP format, from memory; 64-bit fields included.
 */
import { Inflate, ZipPassThrough } from 'fflate';
import { Problem } from '../../engine/problems.js';
import { joined } from '../bytes.js';
import { LARGEST_UNPACKED, megabytes, MOST_GROWTH, SMALL_PART } from './limits.js';

/** @param where - the part, and what is wrong with it */
export const damaged = (where?: string): Problem =>
  new Problem(
    `the workbook is cut short or damaged${where === undefined ? '' : ` (${where})`}; open it where it still opens and save it again as .xlsx`,
  );
export const LOCKED =
  'the workbook is protected by a password; open it, save a copy without password, and use the copy';
const BOMB =
  'the workbook unpacks to far more than a table holds, as files made to stop a program do; open it and save the sheet you need as .csv';

const END = 0x06054b50;
const END_64 = 0x06064b50;
const END_64_PLACE = 0x07064b50;
const ENTRY = 0x02014b50;
const LOCAL = 0x04034b50;
const END_LENGTH = 22;
const ENTRY_LENGTH = 46;
const LOCAL_LENGTH = 30;
const LONGEST_COMMENT = 65_535;
const MOST_PARTS = 20_000;
const FULL_32 = 0xffffffff;
const FULL_16 = 0xffff;
const STORED = 0;
const DEFLATED = 8;
/** Bytes unpacked at a time; they grow at most a thousandfold before they are counted. */
const SLICE = 16_384;

interface Part {
  name: string;
  method: number;
  crc: number;
  packed: number;
  unpacked: number;
  /** of its local header */
  at: number;
}

/** Numbers at places of the file; a place beyond its end means it is cut short. */
class Bytes {
  private readonly view: DataView;

  constructor(readonly bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  u16(at: number): number {
    if (at < 0 || at + 2 > this.bytes.length) throw damaged();
    return this.view.getUint16(at, true);
  }

  u32(at: number): number {
    if (at < 0 || at + 4 > this.bytes.length) throw damaged();
    return this.view.getUint32(at, true);
  }

  u64(at: number): number {
    return this.u32(at) + this.u32(at + 4) * 2 ** 32;
  }

  text(at: number, length: number): string {
    if (at < 0 || at + length > this.bytes.length) throw damaged();
    return new TextDecoder().decode(this.bytes.subarray(at, at + length));
  }
}

/** Place and number of the directory's entries. */
function directoryOf(file: Bytes): { at: number; entries: number } {
  const { length } = file.bytes;
  const least = Math.max(0, length - END_LENGTH - LONGEST_COMMENT);
  for (let at = length - END_LENGTH; at >= least; at--) {
    if (file.bytes[at] !== 0x50 || file.u32(at) !== END) continue;
    const [entries, start] = [file.u16(at + 10), file.u32(at + 16)];
    if (entries !== FULL_16 && start !== FULL_32) return { at: start, entries };
    if (at < 20 || file.u32(at - 20) !== END_64_PLACE) throw damaged();
    const long = file.u64(at - 12);
    if (file.u32(long) !== END_64) throw damaged();
    return { at: file.u64(long + 48), entries: file.u64(long + 32) };
  }
  throw damaged();
}

/** Sizes and place that do not fit 32 bits stand in an extra field, in this order and only where needed. */
function widened(file: Bytes, part: Part, from: number, to: number): Part {
  for (let at = from; at + 4 <= to; at += 4 + file.u16(at + 2)) {
    if (file.u16(at) !== 1) continue;
    let next = at + 4;
    const take = (value: number): number => {
      if (value !== FULL_32) return value;
      next += 8;
      return file.u64(next - 8);
    };
    const unpacked = take(part.unpacked);
    const packed = take(part.packed);
    return { ...part, unpacked, packed, at: take(part.at) };
  }
  return part;
}

function partsOf(file: Bytes): Map<string, Part> {
  const { at: start, entries } = directoryOf(file);
  if (entries > MOST_PARTS) throw new Problem(BOMB);
  const parts = new Map<string, Part>();
  let at = start;
  for (let i = 0; i < entries; i++) {
    if (file.u32(at) !== ENTRY) throw damaged();
    if ((file.u16(at + 8) & 1) !== 0) throw new Problem(LOCKED);
    const [name, extra, comment] = [file.u16(at + 28), file.u16(at + 30), file.u16(at + 32)];
    const after = at + ENTRY_LENGTH + name;
    const part: Part = {
      name: file
        .text(at + ENTRY_LENGTH, name)
        .replace(/\\/g, '/')
        .replace(/^\//, ''),
      method: file.u16(at + 10),
      crc: file.u32(at + 16),
      packed: file.u32(at + 20),
      unpacked: file.u32(at + 24),
      at: file.u32(at + 42),
    };
    parts.set(part.name.toLowerCase(), widened(file, part, after, after + extra));
    at = after + extra + comment;
  }
  return parts;
}

/** CRC-32, as the library computes it for a part it is about to store. */
function crcOf(content: Uint8Array): number {
  const sum = new ZipPassThrough('');
  sum.ondata = () => undefined;
  sum.push(content, true);
  return sum.crc >>> 0;
}

/** What a deflated part unpacks to; stops where it goes beyond what the directory says. */
function inflated(name: string, packed: Uint8Array, most: number): Uint8Array {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const inflate = new Inflate((chunk) => {
    size += chunk.length;
    if (size > most) throw new Problem(BOMB);
    chunks.push(chunk);
  });
  try {
    for (let at = 0; at < packed.length; at += SLICE)
      inflate.push(packed.subarray(at, at + SLICE), at + SLICE >= packed.length);
  } catch (error) {
    throw error instanceof Problem ? error : damaged(`${name} cannot be unpacked`);
  }
  return joined(chunks);
}

export class Container {
  private readonly file: Bytes;
  private readonly parts: Map<string, Part>;
  /** unpacked so far, over all parts [bytes] */
  private total = 0;

  /** @throws Problem if the directory is not there, or parts are behind a password */
  constructor(bytes: Uint8Array) {
    this.file = new Bytes(bytes);
    this.parts = partsOf(this.file);
  }

  has(name: string): boolean {
    return this.parts.has(name.toLowerCase());
  }

  names(): string[] {
    return [...this.parts.values()].map(({ name }) => name);
  }

  /**
   * A part unpacked; names are told apart without case, as the format has it.
   * @returns undefined when there is no such part
   * @throws Problem when it is damaged, or unpacks to more than is believed
   */
  part(name: string): Uint8Array | undefined {
    const part = this.parts.get(name.toLowerCase());
    if (!part) return undefined;
    const { packed, unpacked, method, crc } = part;
    const grown = unpacked > SMALL_PART && unpacked > packed * MOST_GROWTH;
    if (grown) throw new Problem(BOMB);
    if (this.total + unpacked > LARGEST_UNPACKED)
      throw new Problem(
        `the workbook unpacks to more than ${megabytes(LARGEST_UNPACKED)}, the most that is read; save the sheet you need as .csv`,
      );
    this.total += unpacked;
    const content = this.contentOf(part, method);
    if (content.length !== unpacked || crcOf(content) !== crc)
      throw damaged(`${part.name} is not what its check sum says`);
    return content;
  }

  private contentOf(part: Part, method: number): Uint8Array {
    const { file } = this;
    if (file.u32(part.at) !== LOCAL) throw damaged();
    const from = part.at + LOCAL_LENGTH + file.u16(part.at + 26) + file.u16(part.at + 28);
    if (from + part.packed > file.bytes.length) throw damaged();
    const packed = file.bytes.subarray(from, from + part.packed);
    if (method === STORED) return packed;
    if (method === DEFLATED) return inflated(part.name, packed, part.unpacked);
    throw new Problem(
      'the workbook is packed in a way that is not read; open it and save it again as .xlsx',
    );
  }
}
