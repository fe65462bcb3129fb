/**
 * Hashes of the texts that the pages may run and style themselves with (Content Security Policy level 3,
 * hash-source). A test compares them with the texts and, when one was changed, prints the new value to put here.
 */
export const STYLE_HASH = 'sha256-qmVr1WJeBeApoIZSpDkjyrwoof7aGDI7WT1tXfx6Gro=';
export const SCRIPT_HASH = 'sha256-RCcUQghzGL6po7cPoFC7jACDfX2kbm44K+v7/s2tPTE=';
export const LIVE_HASH = 'sha256-HQJxeSH3iHFlduJ1tI5mQnh83jkPz32jgB/OvM7ULPo=';
