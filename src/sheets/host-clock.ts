/** The clock of Google Sheets itself: the zone of the open sheet, and the host's own formatting. */
import type { SheetClock } from './host-values.js';

declare const SpreadsheetApp: {
  getActiveSpreadsheet(): { getSpreadsheetTimeZone(): string };
};
declare const Utilities: { formatDate(moment: Date, zone: string, pattern: string): string };

export const HOST_CLOCK: SheetClock = {
  zone: () => SpreadsheetApp.getActiveSpreadsheet().getSpreadsheetTimeZone(),
  format: (moment, zone, pattern) => Utilities.formatDate(moment, zone, pattern),
};
