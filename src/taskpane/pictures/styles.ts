/**
 * What the pictures look like, as a sheet an element or a page adopts. The drawing library would bring its rules as a
 * style element inside each picture, which the page's policy refuses; those it needs stand here. Colours are the panel's.
 */
import { css } from 'lit';

export const pictureStyles = css`
  .picture {
    margin: 16px 0 0;
    color: var(--bark, #3b2f2a);
    container-type: inline-size;
  }
  .picture figcaption {
    font-weight: 650;
    margin-bottom: 4px;
    text-wrap: pretty;
  }
  .picture .drawing {
    display: block;
    max-width: 100%;
    height: auto;
    overflow: visible;
    background: var(--paper, #fff);
    font: 0.6875rem/1.2 var(--type, system-ui, sans-serif);
    /* large text in a narrow drawing would cover itself; the numbers below grow without end */
    font-size: min(0.6875rem, 4.2cqi);
    font-variant-numeric: tabular-nums;
  }
  .picture .drawing text {
    white-space: pre;
  }
  .picture-key {
    display: flex;
    flex-wrap: wrap;
    gap: 2px 14px;
    margin: 4px 0 0;
    padding: 0;
    list-style: none;
    font-size: 0.75rem;
  }
  .picture-key li {
    display: flex;
    align-items: center;
    gap: 6px;
  }
  .picture-key svg {
    flex: none;
  }
  .picture summary {
    cursor: pointer;
    color: var(--water, #0b5c8f);
    font-size: 0.8125rem;
    min-height: 24px;
    padding: 4px 0;
  }
  .picture-numbers {
    max-height: 280px;
    overflow: auto;
  }
  .picture-numbers table {
    border-collapse: collapse;
    font-size: 0.75rem;
    font-variant-numeric: tabular-nums;
  }
  .picture-numbers th,
  .picture-numbers td {
    padding: 2px 8px 2px 0;
    text-align: right;
    font-weight: 400;
    border-bottom: 1px solid var(--rule, #d9cfbf);
    vertical-align: bottom;
  }
  .picture-numbers thead th {
    font-weight: 600;
  }
  .picture-numbers tr > :first-child {
    text-align: left;
    white-space: nowrap;
  }
  .picture .coil .coil-words {
    fill: var(--bark, #3b2f2a);
    font-family: var(--type, system-ui, sans-serif);
  }
  .picture .coil .coil-stem {
    fill: var(--bark, #3b2f2a);
  }
  .picture .coil .coil-ball {
    stroke: var(--loam, #6b4f3a);
  }
  .picture .coil .coil-dripline,
  .picture .coil .coil-scale {
    stroke: var(--bark, #3b2f2a);
  }
  .picture .coil .coil-hose,
  .picture .coil .coil-joint {
    stroke: var(--water, #0b5c8f);
  }
  .picture .coil .coil-joint {
    fill: var(--paper, #fff);
  }
  .picture .coil .coil-wet,
  .picture .coil .coil-rim {
    stroke: color-mix(in srgb, var(--water, #0b5c8f) 22%, var(--paper, #fff));
  }
  .picture .coil .coil-rim {
    stroke: color-mix(in srgb, var(--water, #0b5c8f) 55%, var(--paper, #fff));
  }
  .picture .coil .coil-wet-key {
    fill: color-mix(in srgb, var(--water, #0b5c8f) 22%, var(--paper, #fff));
    stroke: color-mix(in srgb, var(--water, #0b5c8f) 55%, var(--paper, #fff));
  }
  @media (forced-colors: active) {
    .picture .drawing {
      forced-color-adjust: none;
    }
  }
`;
