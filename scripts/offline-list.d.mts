import type { OfflineList } from '../src/desk/offline-list.js';

export function offlineList(folder: string): OfflineList;
export function writeOfflineList(folder: string): OfflineList;
