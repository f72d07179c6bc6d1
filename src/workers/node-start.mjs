/** Starts a planning thread: its code is TypeScript, and a thread does not inherit the loader of its parent. */
import { register } from 'tsx/esm/api';

register();
await import('./node-worker.ts');
