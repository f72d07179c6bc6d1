/** Errors as the spreadsheet program gives them: a code, and the statement that failed. */
export class OfficeError extends Error {
  readonly debugInfo: { code: string; message: string; errorLocation: string; statement: string };

  constructor(
    readonly code: string,
    message: string,
    statement = '',
  ) {
    super(message);
    this.name = 'OfficeExtension.Error';
    this.debugInfo = { code, message, errorLocation: statement, statement };
  }

  /** The same with the statement at which it came up, if that is not known yet. */
  at(statement: string): OfficeError {
    return this.debugInfo.statement === ''
      ? new OfficeError(this.code, this.message, statement)
      : this;
  }
}

export const invalid = (message: string): OfficeError =>
  new OfficeError('InvalidArgument', message);
