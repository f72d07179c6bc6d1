/**
 * A field that is being typed in belongs to the person: nothing is written into it and nothing is taken from it until it is
 * left. A day field needs this most: it reports a change with every digit (month 1, year 0002), and a value written into it
 * meanwhile makes it forget the digits that came before.
 */
import { noChange } from 'lit';
import { Directive, directive, PartType, type ElementPart, type PartInfo } from 'lit/directive.js';

/** What is done with a field's text once it is left, or once a day is picked in it. */
export type Take = (field: HTMLInputElement) => void | Promise<void>;

/** Keys that lead out of a field, or on to its next part, and change nothing in it. */
const LEADING = new Set(['Tab', 'Shift', 'Control', 'Alt', 'Meta', 'Escape', 'ArrowLeft', 'ArrowRight', 'F6']); // prettier-ignore

class TypedIn extends Directive {
  private field: HTMLInputElement | undefined;
  private shown = '';
  private take: Take = () => undefined;
  /** being typed in, or just taken and not yet read back */
  private held = false;
  /** the change under way is typed, not picked */
  private byKeys = false;
  /** counts what is typed, so that a reading that ends does not release what was typed after it began */
  private turn = 0;
  /** what is being taken: leaving the field after Enter, or after a change, takes it no second time */
  private taking: string | undefined;

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.ELEMENT) throw new TypeError('typedIn stands in the tag of a field');
  }

  render(_shown: string, _take: Take): unknown {
    return noChange;
  }

  override update(part: ElementPart, [shown, take]: [string, Take]): unknown {
    if (this.field === undefined) this.listen(part.element as HTMLInputElement);
    [this.shown, this.take] = [shown, take];
    this.show();
    return noChange;
  }

  private show(): void {
    if (this.field && !this.held && this.field.value !== this.shown) this.field.value = this.shown;
  }

  private listen(field: HTMLInputElement): void {
    this.field = field;
    const hold = (): void => {
      this.held = true;
      this.taking = undefined;
      this.turn++;
    };
    field.addEventListener('pointerdown', () => (this.byKeys = false));
    field.addEventListener('keydown', ({ key }) => {
      if (key === 'Enter') return void this.settle();
      if (LEADING.has(key)) return;
      this.byKeys = true;
      hold();
    });
    field.addEventListener('input', hold);
    field.addEventListener('change', () => {
      // with every digit of a day: only leaving the field says that it is whole
      if (field.type !== 'date' || !this.byKeys) void this.settle();
    });
    field.addEventListener('blur', () => void this.settle());
  }

  /** Takes what stands in the field, if it is another text than was shown or no whole day. */
  private async settle(): Promise<void> {
    const { field, take, turn } = this;
    if (!field || !this.held || this.taking === field.value) return;
    this.byKeys = false;
    this.taking = field.value;
    const unfinished = field.validity.badInput;
    if (field.value !== this.shown || unfinished) await take(field);
    // the elements around draw what was read before the field may show another text
    await new Promise((done) => setTimeout(done));
    if (turn !== this.turn) return;
    this.held = false;
    this.taking = undefined;
    if (unfinished) field.value = '';
    this.show();
  }
}

/**
 * `<input ${typedIn(shown, take)}>`: shows a text while nobody types, and gives what was typed once the field is left, on Enter,
 * or when a day is picked with the pointer.
 */
export const typedIn = directive(TypedIn);
