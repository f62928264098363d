/**
 * Milliseconds after which a test that starts LibreOffice, a browser or commands, or reviews whole workbooks, is taken to have no end: on a busy machine such a
 * test takes a minute. No test is about time; the bench measures it.
 */
export const slow = 600_000;
