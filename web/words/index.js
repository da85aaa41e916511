// The words in the language this phone speaks: the one chosen, else the phone's own, else English.

const wanted = globalThis.localStorage?.getItem("language") ?? globalThis.navigator?.language?.slice(0, 2) ?? "en";

/** @returns {Promise<{language: string, words: typeof import("./en.js").default}>} */
async function load(language) {
  try {
    return { language, words: (await import(`./${language}.js`)).default };
  } catch {
    return { language: "en", words: (await import("./en.js")).default };
  }
}

const spoken = await load(/^[a-z]{2}$/.test(wanted) ? wanted : "en");

export const { language } = spoken;
export default spoken.words;
