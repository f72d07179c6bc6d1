/** A file dropped anywhere on the desk is opened, as with the button. */

const hasFiles = (event: DragEvent): boolean =>
  event.dataTransfer?.types.includes('Files') === true;

/**
 * Takes dropped files of the whole page, before the grid sees them.
 *
 * @param open - opens the first of them and says what goes wrong
 */
export function takeDrops(page: Document, open: (file: File) => void): void {
  const show = (dropping: boolean): void => void page.body.classList.toggle('dropping', dropping);
  page.addEventListener(
    'dragover',
    (event) => {
      if (!hasFiles(event)) return;
      // the browser would open the file in place of the page
      event.preventDefault();
      event.stopPropagation();
      if (event.dataTransfer) event.dataTransfer.dropEffect = 'copy';
      show(true);
    },
    true,
  );
  page.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) show(false);
  });
  page.addEventListener(
    'drop',
    (event) => {
      if (!hasFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      show(false);
      const file = event.dataTransfer?.files[0];
      if (file) open(file);
    },
    true,
  );
}
