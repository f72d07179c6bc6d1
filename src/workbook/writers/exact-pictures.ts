/**
 * Pictures of a file at their own size. The file library hangs every image between two cells, so its height would follow
 * the row heights of whatever program opens it, and a drawing to scale would no longer be one. Here each image gets one
 * cell to hang on and its own extent instead. Only the parts that place drawings are packed again: packing all of them
 * would take a third of the time the file takes to write.
 */
import { inflateSync, strFromU8, strToU8, Unzip, UnzipPassThrough, Zip, ZipDeflate, ZipPassThrough } from 'fflate'; // prettier-ignore
import { joined } from '../bytes.js';

const TWO_CELLS =
  /<xdr:twoCellAnchor[^>]*>(<xdr:from>.*?<\/xdr:from>)<xdr:to>.*?<\/xdr:to>(<xdr:pic>.*?<\/xdr:pic>)(.*?)<\/xdr:twoCellAnchor>/gs;
const EXTENT = /<a:ext cx="(\d+)" cy="(\d+)"\/>/;

/** Images of a drawing part hung on one cell each. */
export const hungOnOneCell = (xml: string): string =>
  xml.replace(TWO_CELLS, (whole: string, from: string, picture: string, rest: string) => {
    const [, cx, cy] = EXTENT.exec(picture) ?? [];
    return cx === undefined || cy === undefined
      ? whole
      : `<xdr:oneCellAnchor>${from}<xdr:ext cx="${cx}" cy="${cy}"/>${picture}${rest}</xdr:oneCellAnchor>`;
  });

/** How a part is packed, in the words of the ZIP format. */
const DEFLATED = 8;
/** Every part's time: the first a container knows, so that the same workbook is always the same bytes. */
const NO_TIME = new Date(1980, 0, 1);

interface PackedPart {
  name: string;
  method: number;
  packed: Uint8Array<ArrayBuffer>;
}

/** Hands deflated parts out as they are. */
class LeftPacked extends UnzipPassThrough {
  static override compression = DEFLATED;
}

/** The parts of a file in their order. */
function partsOf(file: Uint8Array): PackedPart[] {
  const parts: PackedPart[] = [];
  const unzip = new Unzip((part) => {
    // the file is pushed whole, so each part comes whole
    part.ondata = (error, packed) => {
      if (error) throw error;
      parts.push({ name: part.name, method: part.compression, packed });
    };
    part.start();
  });
  unzip.register(LeftPacked);
  unzip.push(file, true);
  return parts;
}

const contentOf = ({ method, packed }: PackedPart): Uint8Array =>
  method === DEFLATED ? inflateSync(packed) : packed;

/** A part that goes on as it was packed; its sum and size are taken from what it unpacks to. */
class Kept extends ZipPassThrough {
  override compression = DEFLATED;

  constructor(
    name: string,
    private readonly packed: Uint8Array<ArrayBuffer>,
  ) {
    super(name);
  }

  protected override process(_content: Uint8Array, final: boolean): void {
    this.ondata(null, this.packed, final);
  }
}

/** The same .xlsx file with each image at the size its drawing part gives it. */
export function exactPictures(file: Uint8Array): Uint8Array {
  const out: Uint8Array[] = [];
  const zip = new Zip((error, chunk) => {
    if (error) throw error;
    out.push(chunk);
  });
  for (const part of partsOf(file)) {
    const { name, method, packed } = part;
    const content = contentOf(part);
    const isDrawing = /^xl\/drawings\/drawing\d+\.xml$/.test(name);
    // stored parts are written as deflated ones that are not smaller: sums behind stored data confuse some readers
    const entry =
      isDrawing || method !== DEFLATED
        ? new ZipDeflate(name, { level: isDrawing ? 6 : 0 })
        : new Kept(name, packed);
    entry.mtime = NO_TIME;
    zip.add(entry);
    entry.push(isDrawing ? strToU8(hungOnOneCell(strFromU8(content))) : content, true);
  }
  zip.end();
  return joined(out);
}
