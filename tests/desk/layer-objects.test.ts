/** What the grid's library holds of objects drawn once and taken away; its layers are told in src/desk/layer-objects.ts. */
import { describe, expect, it } from 'vitest';
import { drawing } from '../../src/desk/grid-engine.js';

const { Layer, Rect } = drawing;

/** As much of a scene as a layer asks for. */
const scene = {
  getEngine: () => undefined,
  getObject: () => undefined,
  getParent: () => ({ classType: 'Engine' }),
  setObjectBehavior: () => undefined,
} as unknown as drawing.Scene;

const held = (layer: drawing.Layer): number =>
  (layer as unknown as { _collection: { _disposables: Set<unknown> } })._collection._disposables
    .size;

describe('a layer of the grid', () => {
  it('keeps nothing of objects that came and went', () => {
    const layer = new Layer(scene, [], 0, false);
    const before = held(layer);
    for (let i = 0; i < 50; i++) {
      const rect = new Rect(`pane ${i}`, { width: 10, height: 10 });
      layer.addObject(rect);
      layer.removeObject(rect);
      rect.dispose();
    }
    expect(layer.getObjects()).toHaveLength(0);
    expect(held(layer)).toBe(before);
  });

  it('is drawn anew when an object on it moves, and not after the object has gone', () => {
    const layer = new Layer(scene, [], 0, false);
    const rect = new Rect('pane', { width: 10, height: 10 });
    layer.addObject(rect);
    expect(rect.layer).toBe(layer);
    layer.makeDirty(false);
    rect.transformByState({ left: 5 });
    expect(layer.isDirty()).toBe(true);
    rect.dispose();
    layer.makeDirty(false);
    rect.onTransformChange$.emitEvent({} as never);
    expect(layer.isDirty()).toBe(false);
  });
});
