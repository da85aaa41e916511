// Every language of the page has the words English has, and no screen reads one language's file past the choice.
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { test } from "node:test";
import en from "../../web/words/en.js";

const WEB = new URL("../../web/", import.meta.url);
const languages = readdirSync(new URL("words/", WEB)).filter((name) => /^[a-z]{2}\.js$/.test(name) && name !== "en.js");

function shape(words, path = "") {
  if (words === null || typeof words !== "object") return [`${path} ${typeof words}`];
  return Object.keys(words).sort().flatMap((key) => shape(words[key], `${path}/${key}`));
}

for (const name of languages) {
  test(`${name} has the keys of English, each of the same kind`, async () => {
    const { default: words } = await import(new URL(`words/${name}`, WEB));
    assert.deepEqual(shape(words), shape(en));
  });

  test(`${name} leaves nothing unsaid`, async () => {
    const { default: words } = await import(new URL(`words/${name}`, WEB));
    const empty = (held) => shape(held).length && JSON.stringify(held).match(/:""/g)?.length;
    assert.equal(empty(words), empty(en));
  });
}

test("screens take the words of the chosen language", () => {
  const folders = ["views/", "app/", "components/", "state/"];
  const files = folders.flatMap((folder) => readdirSync(new URL(folder, WEB)).map((file) => folder + file));
  const past = files.filter((file) => /words\/[a-z]{2}\.js/.test(readFileSync(new URL(file, WEB), "utf8")));
  assert.deepEqual(past, []);
});

test("without a choice and without a browser the words are English", async () => {
  const { default: words, language } = await import("../../web/words/index.js");
  assert.equal(language, "en");
  assert.equal(words.entry.keep, en.entry.keep);
});
