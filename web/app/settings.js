// How this phone shows things, kept in the browser; another language starts the page anew, digits are kept through it.

export const settingActs = ({ store }) => ({
  set(name, value) {
    localStorage.setItem(name, value);
    store.dispatch({ type: "setting-chosen", change: { [name]: value } });
  },
  speak(code) {
    localStorage.setItem("language", code);
    location.reload();
  },
});

/** The languages the engine has words in; the page has the same, a test sees to it. */
export async function findLanguages({ store }) {
  const index = await fetch("/engine/index.json").then((answer) => answer.json());
  const languages = index.files.map((name) => /^words\/([a-z]{2})\.py$/.exec(name)?.[1]).filter(Boolean);
  store.dispatch({ type: "languages-found", languages });
}
