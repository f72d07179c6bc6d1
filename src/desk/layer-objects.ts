/**
 * The grid's library draws every sheet on the same few layers. A layer listens to each object laid on it and keeps the end of
 * that listening until the layer itself goes, which is never: frozen panes drawn anew with every sheet shown stay listed for
 * good. Here a layer listens for as long as the object is there: an object ends its listeners when it goes.
 */
import { type BaseObject, Layer } from '@univerjs/engine-render';

interface Listening {
  _layerBehavior(this: Layer, object: BaseObject): void;
}

const layers = Layer.prototype as unknown as Listening;
if (typeof layers._layerBehavior !== 'function')
  throw new Error('The grid’s library no longer listens to objects by "_layerBehavior".');

layers._layerBehavior = function (object) {
  object.onTransformChange$.subscribeEvent(() => {
    this.makeDirty(true);
  });
  object.layer = this;
};
