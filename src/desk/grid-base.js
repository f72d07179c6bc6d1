/**
 * The libraries the grid's prebuilt files expect to find on the page under these names. They come as
 * modules only, so they are bundled here; nothing else in the project uses them.
 */
import * as React from 'react';
import * as ReactDOM from 'react-dom';
import * as ReactDOMClient from 'react-dom/client';
import * as jsxRuntime from 'react/jsx-runtime';
import * as rxjs from 'rxjs';
import * as operators from 'rxjs/operators';

globalThis.React = { ...React, ...jsxRuntime };
globalThis.ReactDOM = { ...ReactDOM, ...ReactDOMClient };
globalThis.rxjs = { ...rxjs, operators };
