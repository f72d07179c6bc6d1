/** A planning worker as a thread of Node. */
import { parentPort } from 'node:worker_threads';
import { planAnswers, type Ask } from './plan-worker.js';

if (parentPort === null) throw new Error('this file is run as a worker thread');
const port = parentPort;
const answer = planAnswers((message, handedOver) => port.postMessage(message, handedOver));
port.on('message', (ask: Ask) => answer(ask));
