/** The plan room in a page's worker; the entry `plan-room` of the build. */
import { Problem } from '../engine/problems.js';
import type { Fonts } from '../workbook/exports/pdf.js';
import type { FromRoom, ToRoom } from './room-messages.js';
import { roomAnswers } from './room-answers.js';
import { roomSolver } from './room-solver.js';

/** Where the build puts the typefaces of PDF files, beside the worker. */
const FONT_FILES: Readonly<Record<keyof Fonts, string>> = {
  regular: 'vendor/fonts/DejaVuSansCondensed.ttf',
  bold: 'vendor/fonts/DejaVuSansCondensed-Bold.ttf',
};

/** The solver, beside them. */
const SOLVER_FILE = 'vendor/highs.wasm';

/** What this file needs of a dedicated worker's own scope; the page's types are another scope's. */
interface WorkerScope {
  postMessage(message: FromRoom, handedOver: ArrayBuffer[]): void;
  onmessage: ((event: { data: ToRoom }) => void) | null;
  location: { href: string };
}

const scope = globalThis as unknown as WorkerScope;

async function served(path: string): Promise<Uint8Array> {
  const answer = await fetch(new URL(path, scope.location.href));
  if (!answer.ok)
    throw new Problem(`the typeface ${path} was not served (${answer.status}); build it again`);
  return new Uint8Array(await answer.arrayBuffer());
}

const fonts = async (): Promise<Fonts> => {
  const [regular, bold] = await Promise.all([served(FONT_FILES.regular), served(FONT_FILES.bold)]);
  return { regular, bold };
};

const solve = roomSolver(new URL(SOLVER_FILE, scope.location.href).href);
const answer = roomAnswers({ fonts, solve }, (message, handedOver) =>
  scope.postMessage(message, handedOver),
);
scope.onmessage = ({ data }) => answer(data);
