/**
 * The editor's words for what can go wrong with a file. `FileExists`, `FileNotFound` … are names that the editor's
 * file system interface gives to its own errors, so that a client can rebuild them.
 *
 * @typedef {'FileNotFound' | 'FileExists' | 'FileNotADirectory' | 'FileIsADirectory' | 'NoPermissions' | 'Unavailable'} DiskErrorCode
 */

export class DiskError extends Error {
  /**
   * @param {DiskErrorCode} code
   * @param {string} message
   */
  constructor(code, message) {
    super(message);
    this.code = code;
  }
}

/** @type {Readonly<Record<string, DiskErrorCode>>} */
const CODE_OF_SYSTEM_ERROR = {
  ENOENT: 'FileNotFound',
  EEXIST: 'FileExists',
  ENOTDIR: 'FileNotADirectory',
  EISDIR: 'FileIsADirectory',
  ENOTEMPTY: 'NoPermissions',
  EACCES: 'NoPermissions',
  EPERM: 'NoPermissions',
  EROFS: 'NoPermissions',
  ENAMETOOLONG: 'NoPermissions',
};

/**
 * Says any failure in the editor's words; what is not known counts as a disk that does not answer.
 *
 * @param {unknown} error
 * @returns {DiskError}
 */
export function toDiskError(error) {
  if (error instanceof DiskError) return error;
  if (!(error instanceof Error)) return new DiskError('Unavailable', String(error));
  const code = 'code' in error && typeof error.code === 'string' ? CODE_OF_SYSTEM_ERROR[error.code] : undefined;
  return new DiskError(code ?? 'Unavailable', error.message);
}

/** @type {Readonly<Record<DiskErrorCode, number>>} */
export const HTTP_STATUS = {
  FileNotFound: 404,
  FileExists: 409,
  FileNotADirectory: 409,
  FileIsADirectory: 409,
  NoPermissions: 403,
  Unavailable: 500,
};
