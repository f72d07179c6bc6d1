/** The stand-in as the office.js of a page: bundled by `page-host.ts`, which puts the starting workbook before it. */
import { FakeHost, type Start } from './fake-host.js';

const page = globalThis as unknown as { fakeHost: FakeHost; fakeStart: Start };
page.fakeHost = new FakeHost(page.fakeStart);
page.fakeHost.install();
