/**
 * Hashes of the two texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-iqXcXnVPX51b7m+JiFaMRVSUfWJGg+tZR1TUgRHCIRM=';
export const SCRIPT_HASH = 'sha256-LU6Cm6cHCrMcGziruVPlC+Y1I2SMuUigvtrCJxnTYnE=';
