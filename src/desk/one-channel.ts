/**
 * Stands for MessageChannel inside the grid's bundle. The library makes a channel for every task it puts off and closes it
 * only where the task is cancelled; an open channel stays in memory for good. Here all tasks go through one channel, in order.
 */
interface Port {
  onmessage: ((event: { data: unknown }) => void) | null;
  postMessage(data: unknown): void;
  close(): void;
}

const waiting: (() => void)[] = [];
const { port1, port2 } = new globalThis.MessageChannel();
port1.onmessage = () => waiting.shift()?.();

export class OneChannel {
  readonly port1: Port;
  readonly port2: Port;

  constructor() {
    const port = (other: () => Port): Port => ({
      onmessage: null,
      postMessage(data) {
        waiting.push(() => other().onmessage?.({ data }));
        port2.postMessage(null);
      },
      close() {
        this.onmessage = null;
      },
    });
    this.port1 = port(() => this.port2);
    this.port2 = port(() => this.port1);
  }
}
