/** A file a person has picked or dropped. */
import { Problem } from '../engine/problems.js';
import { LARGEST_FILE } from '../workbook/readers/limits.js';

const MB = 1024 * 1024;

/** Its bytes; a file far too large is refused before it is read. @throws Problem */
export async function pickedBytes(file: File): Promise<Uint8Array> {
  if (file.size > LARGEST_FILE)
    throw new Problem(
      `"${file.name}" has ${Math.ceil(file.size / MB)} MB; up to ${LARGEST_FILE / MB} MB are read, so split it or take out what is no table`,
    );
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    throw new Problem(
      `"${file.name}" cannot be read; is it a folder, or was it moved or changed meanwhile? One .csv or .xlsx file is accepted`,
    );
  }
}
