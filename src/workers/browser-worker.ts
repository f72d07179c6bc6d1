/** A planning worker in a browser; the entry `plan-worker` of the build. */
import { planAnswers, type Answer, type Ask } from './plan-worker.js';

/** What this file needs of a dedicated worker's own scope; the page's types are another scope's. */
interface WorkerScope {
  postMessage(message: Answer, handedOver: ArrayBuffer[]): void;
  onmessage: ((event: { data: Ask }) => void) | null;
}

const scope = globalThis as unknown as WorkerScope;
const answer = planAnswers((message, handedOver) => scope.postMessage(message, handedOver));
scope.onmessage = ({ data }) => answer(data);
