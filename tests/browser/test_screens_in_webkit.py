"""The screens around the job in WebKit: sign-in, calls, a label's machine, settings, the look at itself, sign-off."""

import re

from selenium import webdriver
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.remote.webelement import WebElement

from seed_demo.people import OKAFOR
from tests.browser.test_labels import code_of
from tests.browser.test_whole_job_in_webkit import Glove
from tests.fixtures.servers import Server

THEME = "return document.documentElement.dataset.theme + ' ' + document.documentElement.lang;"


def sign_in_at_the_second_try(glove: Glove, address: str) -> None:
    glove.browser.get(address)
    glove.fill('[name="name"]', OKAFOR.name)
    glove.fill('[name="password"]', "not it")
    glove.tap("Sign in", ".big-button")
    glove.until(lambda: glove.browser.find_elements("css selector", "[role=alert]"), "the refusal")
    glove.fill('[name="password"]', OKAFOR.password)
    glove.tap("Sign in", ".big-button")


def see_the_label_and_the_calls(glove: Glove) -> None:
    glove.until(lambda: "#/machine/" in glove.browser.current_url, "the label's machine", 60)
    glove.sees("MT-25")
    glove.sees("Last visits")
    glove.go("")
    glove.sees("Ready for no signal", 60)
    glove.sees("Other open calls")


def choose_and_come_back(glove: Glove) -> None:
    glove.go("settings")
    glove.tap("Sunlight", ".chip")
    glove.tap("Largest", ".chip")
    glove.until(lambda: glove.browser.execute_script(THEME) == "sun en", "sunlight")
    glove.tap("Español", ".chip")
    glove.until(lambda: glove.browser.execute_script(THEME) == "sun es", "Spanish after a reload")
    glove.sees("Ajustes")
    glove.tap("English", ".chip")
    glove.until(lambda: glove.browser.execute_script(THEME) == "sun en", "English again")


def look_at_itself(glove: Glove) -> None:
    glove.go("diagnose")
    glove.until(lambda: "agree" in text_of(glove), "the worked examples", 60)
    [(passed, of)] = re.findall(r"(\d+) of (\d+) agree", text_of(glove))
    assert passed == of != "0"


def text_of(glove: Glove) -> str:
    return glove.browser.find_element("tag name", "body").text


def sign_off(glove: Glove) -> None:
    glove.go("")
    glove.tap("B3", ".call-card")
    glove.until(lambda: "/call/" in glove.browser.current_url, "the call")
    glove.call = glove.browser.current_url.split("/call/")[1].split("/")[0]
    glove.go("step/hand_over")
    glove.fill('[name="who"]', "N. Abara")
    draw_with_a_finger(glove.browser, glove.browser.find_element("css selector", "canvas.ink"))
    glove.tap("Keep the signature")
    glove.sees("Signed by N. Abara")


def draw_with_a_finger(browser: webdriver.WebKitGTK, ink: WebElement) -> None:
    browser.execute_script("arguments[0].scrollIntoView({ block: 'center' });", ink)
    finger = ActionChains(browser).move_to_element_with_offset(ink, -60, 0).click_and_hold()
    finger.move_by_offset(40, 15).move_by_offset(50, -25).release().perform()


def test_the_screens_around_the_job(demo: Server, webkit: webdriver.WebKitGTK) -> None:
    code = code_of(demo, "B3")
    glove = Glove(webkit, demo.url)
    sign_in_at_the_second_try(glove, f"{demo.url}/m/{code}")
    see_the_label_and_the_calls(glove)
    demo.kill()
    choose_and_come_back(glove)
    look_at_itself(glove)
    webkit.get(f"{demo.url}/m/{code}")
    glove.until(lambda: "#/machine/" in webkit.current_url, "the label without a line")
    sign_off(glove)
    glove.call = ""
    glove.go("")
    glove.sees("no line to the office")
