import type { Device } from '../../src/engine/plan/model.js';

/** An invented device with everyday prices and minutes; a test names what it is about. */
export const device = (more: Partial<Device> & Pick<Device, 'name' | 'family'>): Device => ({
  price: 20,
  seasons: 3,
  stock: 10,
  setupMinutes: 5,
  visitMinutes: 4,
  automatic: false,
  ...more,
});
