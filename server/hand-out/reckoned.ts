/** Letters stand side by side as they were reckoned. Names of features: OpenType layout tags. */
export const AS_RECKONED = { kern: false, liga: false, clig: false, calt: false, dlig: false };
