/** What the parts of "Write the order" look like: a framed box, two fields side by side, and how the rules read it. */
import { css } from 'lit';

export const orderBox = css`
  :host {
    container-type: inline-size;
    margin-top: 12px;
    padding: 8px;
    border: 1px solid var(--edge);
    border-radius: 6px;
  }
  .pair {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 0 8px;
    align-items: end;
  }
  .reads {
    margin-top: 8px;
    padding: 6px 8px;
    background: var(--sand);
    border-radius: 6px;
    font-size: 0.8125rem;
  }
  @container (max-width: 17em) {
    .pair {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
