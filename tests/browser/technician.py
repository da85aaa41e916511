"""What a technician does on the phone, by what stands on its screen."""

from playwright.sync_api import Locator, Page, expect

from seed_demo.people import OKAFOR
from tests.fixtures.browsers import Phone

STATES = {"stopped": "Stopped", "running": "Running", "isolated": "Locked"}
READY = "Ready for no signal"
FINDINGS = """() => [...document.querySelectorAll("[data-round] [data-check]")].map((card) => {
    const said = card.querySelector(".finding-body p").textContent;
    return [card.closest("[data-round]").dataset.round, card.dataset.check, card.dataset.verdict, said];
}).sort()"""


class Technician:
    """One person with one phone. Points are opened by their address, as the list's links do."""

    def __init__(self, phone: Phone, address: str) -> None:
        self.phone, self.address = phone, address
        self.call = ""

    @property
    def page(self) -> Page:
        return self.phone.page

    def arrive(self) -> None:
        self.page.goto(self.address)

    def sign_in(self, name: str = OKAFOR.name, password: str = OKAFOR.password) -> None:
        self.arrive()
        self.page.get_by_label("Your name").fill(name)
        self.page.get_by_label("Password").fill(password)
        self.page.get_by_role("button", name="Sign in").click()
        expect(self.page.locator(".call-card").first).to_be_visible(timeout=30_000)

    def sign_out(self) -> None:
        self.go("#/ready")
        self.page.get_by_role("button", name="Sign out").click()
        expect(self.page.get_by_label("Your name")).to_be_visible()

    def wait_until_ready(self) -> None:
        expect(self.page.get_by_text(READY, exact=True)).to_be_visible(timeout=20_000)

    def settle_in(self) -> None:
        """Sign in, and wait until the phone can do without a line."""
        self.sign_in()
        self.wait_until_ready()

    def open_call(self, tag: str) -> str:
        self.go("#/")
        self.page.locator(".call-card", has_text=tag).first.click()
        expect(self.page.locator(".point-row").first).to_be_visible()
        self.call = self.page.url.split("/call/")[1].split("/")[0]
        return self.call

    def go(self, place: str) -> None:
        self.page.evaluate("place => { location.hash = place; }", place)

    def tab(self, name: str) -> None:
        self.go(f"#/call/{self.call}/{name}")

    def open_point(self, label: str, point: str) -> None:
        self.go(f"#/call/{self.call}/{label}/{point}")
        heard = self.page.get_by_role("button", name="Understood, go on")
        ready = self.page.locator(".pad, .chips.is-tall")
        expect(heard.or_(ready).first).to_be_visible()
        if heard.is_visible():
            heard.click()
        expect(ready.first).to_be_visible()

    def type_into(self, field: str, text: str) -> None:
        box = self.page.locator(f'.field[data-field="{field}"]')
        if box.get_attribute("aria-current") != "true":
            box.click()
        for key in ["OL"] if text == "OL" else text.replace("-", "±"):
            self.page.locator(".pad").get_by_text(key, exact=True).click()

    def read(self, label: str, point: str, fields: dict[str, str], state: str = "", **choices: str) -> None:
        """Take one reading and wait until the phone says that it is kept."""
        self.open_point(label, point)
        if state:
            self._set_state(state)
            self._acknowledge()
        for field, text in fields.items():
            self.type_into(field, text)
        for title, answer in choices.items():
            group = self.page.get_by_role("group", name=title.replace("_", " "))
            button = group.get_by_role("button", name=answer, exact=True)
            if button.get_attribute("aria-pressed") != "true":
                button.click()
        self.keep()

    def choose_word(self, label: str, point: str, word: str) -> None:
        self.open_point(label, point)
        self.page.get_by_role("button", name=word, exact=True).click()
        self.keep()

    def keep(self) -> None:
        self.page.get_by_role("button", name="Keep", exact=True).click()
        expect(self.page.get_by_text("Kept on this phone at")).to_be_visible()

    def saw(self, *signs: str) -> None:
        self.tab("signs")
        for sign in signs:
            self._go_where(sign)
            self.page.get_by_role("button", name=sign).click()
            expect(self.page.get_by_role("button", name=sign)).to_have_attribute("aria-pressed", "true")

    def verdicts(self) -> list[list[str]]:
        """Return what the findings tab says: sentences by round, check and verdict, sorted."""
        self.tab("findings")
        expect(self.page.locator('[aria-busy="false"] [data-check]').first).to_be_visible()
        return self.page.evaluate(FINDINGS)

    def waiting(self) -> int:
        """Return how many entries the first screen says are not yet sent."""
        self.go("#/")
        told = self.page.locator(".send-line b")
        expect(told).to_be_visible()
        text = told.inner_text()
        return 0 if text == "all sent" else int(text.split()[0])

    def wait_until_sent(self) -> None:
        self.go("#/")
        expect(self.page.locator(".send-line b")).to_have_text("all sent", timeout=30_000)

    def step(self, name: str) -> None:
        self.go(f"#/call/{self.call}/step/{name}")

    def write(self, sheet: str, arg: str, taps: tuple[str, ...] = (), **typed: str) -> None:
        """Fill a sheet: buttons by their words, fields by their names; what stands there is not tapped again."""
        self.go(f"#/call/{self.call}/sheet/{sheet}/{arg}")
        keep = self.page.get_by_role("button", name="Keep", exact=True)
        expect(keep).to_be_visible()
        for tap in taps:
            button = self.page.locator(".choice").get_by_role("button", name=tap, exact=True)
            if button.get_attribute("aria-pressed") != "true":
                button.click()
        for name, text in typed.items():
            self.page.locator(f'[name="{name}"]').fill(text)
        keep.click()
        expect(keep).not_to_be_visible()

    def sign_with_a_finger(self, name: str) -> None:
        self.step("hand_over")
        self.page.get_by_label("Name", exact=True).fill(name)
        field = self.page.get_by_label("Sign here with a finger")
        field.scroll_into_view_if_needed()
        box = field.bounding_box()
        self.page.mouse.move(box["x"] + 30, box["y"] + 40)
        self.page.mouse.down()
        self.page.mouse.move(box["x"] + 160, box["y"] + 60, steps=6)
        self.page.mouse.up()
        self.page.get_by_role("button", name="Keep the signature").click()
        expect(self.page.get_by_text(f"Signed by {name}")).to_be_visible()

    def gate(self, name: str) -> Locator:
        self.step("gates")
        return self.page.locator(f'[data-gate="{name}"]')

    def _set_state(self, state: str) -> None:
        pair = self.page.get_by_role("group", name="Machine", exact=True)
        if pair.count():
            pair.get_by_role("button", name=STATES[state]).click()
        else:
            self.page.get_by_label("Machine", exact=True).select_option(state)

    def _go_where(self, sign: str) -> None:
        """Turn to the place where a sign is looked for."""
        places = self.page.get_by_role("group", name="Where you look").get_by_role("button")
        for place in range(places.count()):
            places.nth(place).click()
            if self.page.get_by_role("button", name=sign).count():
                return

    def _acknowledge(self) -> None:
        heard = self.page.get_by_role("button", name="Understood, go on")
        if heard.is_visible():
            heard.click()
