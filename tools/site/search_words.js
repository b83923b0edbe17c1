// Put into the theme's search worker by tools/site/search.py, before a query reaches lunr. The theme matches each word as the beginning of a word in the
// index, so that "joining" misses "join" and "nozzel" misses everything. Here each word becomes the stem that the index holds, a word that means the
// same here, or the nearest word of the index.

/** @typedef {any} Index lunr's index, which has no types */
/** @type {any} where lunr stands, once the theme's own script has run */
const theme = self;

const SAME_WORDS = /** @type {Record<string, string>} */ (/** @type {unknown} */ ("@same-words@")); // written in by the build
const SAYS_LITTLE = new Set(["much", "many", "long", "thing", "way", "best"]); // beside the words that lunr leaves out

/** How many entries of the index hold a term. @param {Index} index @param {string} term */
const entriesWith = (index, term) => Object.values(index.invertedIndex[term] ?? {}).reduce((/** @type {number} */ sum, entries) => sum + Object.keys(entries).length, 0);

/** @param {string} word */
const stemOf = (word) => String(theme.lunr.stemmer(new theme.lunr.Token(word)));

/**
 * The word of the index that a mistyped word most likely is: one or two letters away, the same first letter first, then the commonest.
 * @param {Index} index @param {string} word @param {string} stem @returns {string | null}
 */
const nearestTerm = (index, word, stem) => {
  const rank = (/** @type {string} */ term) => entriesWith(index, term) * (term[0] === word[0] ? 1000 : 1);
  for (const edits of word.length > 5 ? [1, 2] : word.length > 3 ? [1] : []) {
    /** @type {string[]} */
    const terms = [word, stem].flatMap((text) => index.tokenSet.intersect(theme.lunr.TokenSet.fromFuzzyString(text, edits)).toArray());
    if (terms.length) return terms.reduce((best, term) => (rank(term) > rank(best) ? term : best));
  }
  return null;
};

/** How much a word says: the rarer in the index, the more. @param {Index} index @param {string} term */
const weightOf = (index, term) => Math.max(1, Math.round(4 * Math.log2(Object.keys(index.fieldVectors).length / index.fields.length / (1 + entriesWith(index, term)))));

/**
 * The clauses of one word, in lunr's language: with `^weight` a whole word of the index, without it the beginning of one.
 * @param {Index} index @param {string} word @param {boolean} isLast
 */
const clausesOf = (index, word, isLast) => {
  const stem = stemOf(word);
  if (stem in index.invertedIndex) return isLast && stem === word ? [`${stem}^${weightOf(index, stem)}`, word] : [`${stem}^${weightOf(index, stem)}`];
  if (index.tokenSet.intersect(theme.lunr.TokenSet.fromString(`${word}*`)).toArray().length) return [word];
  const near = nearestTerm(index, word, stem);
  return near ? [`${near}^${weightOf(index, near)}`] : [word];
};

/** The query as lunr is to have it: plain words, and none of lunr's signs. @param {string} query @param {Index} index */
export const preparedQuery = (query, index) => {
  index.pipeline.reset(); // the words are stemmed here, and the stem of a stem may be another word
  const typed = query.toLowerCase().replace(/[^\p{L}\p{N}\s.']+/gu, " ").split(theme.lunr.tokenizer.separator).filter(Boolean);
  const words = typed.filter((word) => theme.lunr.stopWordFilter(word) && !SAYS_LITTLE.has(word));
  const meant = (words.length ? words : typed).flatMap((word) => (Object.hasOwn(SAME_WORDS, word) ? SAME_WORDS[word].split(" ") : [word]));
  return [...new Set(meant)].flatMap((word, at, all) => clausesOf(index, word, at === all.length - 1)).join(" ");
};
