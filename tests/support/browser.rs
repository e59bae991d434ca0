//! A browser without a window, spoken to over a pipe (Chrome DevTools Protocol).
//!
//! The browser reads commands from its file 3 and answers on its file 4, each message ended by a zero byte; the shell puts
//! these in the place of its input and output, so that no library and no port is needed.

use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use serde_json::{Value, json};
use tempfile::TempDir;

/// The programs that are tried, as systems name them.
const NAMES: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// What keeps it quiet, and from the network.
const FLAGS: &str = "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking \
                     --disable-component-update --disable-sync --disable-default-apps --remote-debugging-pipe";

/// A browser with one page.
pub struct Browser {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    _profile: TempDir,
    session: String,
    next: u64,
    /// What the browser said of errors.
    pub complaints: VecDeque<String>,
}

impl Browser {
    /// Starts one; nothing where none is installed.
    pub fn start() -> Option<Self> {
        let is_there = |name: &&&str| {
            let found = Command::new(name).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status();
            found.is_ok_and(|status| status.success())
        };
        let Some(name) = NAMES.iter().find(is_there) else {
            eprintln!("skipped: no browser is installed (apt-get install chromium)");
            return None;
        };
        let profile = tempfile::tempdir().unwrap();
        let script = format!("exec {name} {FLAGS} --user-data-dir=\"$0\" about:blank 3<&0 4>&1 >/dev/null 2>/dev/null");
        let mut child = Command::new("sh")
            .args(["-c", &script])
            .arg(profile.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let (to, from) = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        let mut browser =
            Self { child, to, from, _profile: profile, session: String::new(), next: 0, complaints: VecDeque::new() };
        let target = browser.call("Target.createTarget", json!({ "url": "about:blank" }));
        let attached =
            browser.call("Target.attachToTarget", json!({ "targetId": target["targetId"], "flatten": true }));
        browser.session = attached["sessionId"].as_str().unwrap().to_owned();
        for domain in ["Page.enable", "Runtime.enable", "Log.enable"] {
            browser.call(domain, json!({}));
        }
        browser.size(1280, 900);
        Some(browser)
    }

    /// Sends a command and waits for what comes of it.
    #[track_caller]
    pub fn call(&mut self, method: &str, params: Value) -> Value {
        let answer = self.answer(method, params);
        assert!(answer["error"].is_null(), "{method}: {}", answer["error"]);
        answer["result"].clone()
    }

    /// Sends a command and waits for the answer: a result or an error.
    fn answer(&mut self, method: &str, params: Value) -> Value {
        self.next += 1;
        let mut message = json!({ "id": self.next, "method": method, "params": params });
        if !self.session.is_empty() {
            message["sessionId"] = json!(self.session);
        }
        self.to.write_all(format!("{message}\0").as_bytes()).unwrap();
        self.to.flush().unwrap();
        loop {
            let mut heard = Vec::new();
            self.from.read_until(0, &mut heard).unwrap();
            assert!(!heard.is_empty(), "the browser has ended");
            let heard: Value = serde_json::from_slice(&heard[..heard.len() - 1]).unwrap();
            if heard["id"] == self.next {
                return heard;
            }
            match heard["method"].as_str().unwrap_or_default() {
                "Runtime.exceptionThrown" | "Log.entryAdded" => self.complaints.push_back(heard["params"].to_string()),
                // A page that has something to lose asks whether to leave it.
                "Page.javascriptDialogOpening" => {
                    let id = self.next + 1_000_000;
                    let answer = json!({ "id": id, "method": "Page.handleJavaScriptDialog",
                        "params": { "accept": true }, "sessionId": self.session });
                    self.to.write_all(format!("{answer}\0").as_bytes()).unwrap();
                    self.to.flush().unwrap();
                }
                _ => {}
            }
        }
    }

    /// The value of an expression on the page.
    #[track_caller]
    pub fn js(&mut self, expression: &str) -> Value {
        let params = json!({ "expression": expression, "awaitPromise": true, "returnByValue": true });
        let result = self.call("Runtime.evaluate", params);
        assert!(result["exceptionDetails"].is_null(), "{expression}: {}", result["exceptionDetails"]);
        result["result"]["value"].clone()
    }

    /// Waits until an expression is true.
    #[track_caller]
    pub fn until(&mut self, expression: &str) {
        let start = Instant::now();
        while start.elapsed() < Duration::from_secs(60) {
            let params = json!({ "expression": format!("Boolean({expression})"), "returnByValue": true });
            let answer = self.answer("Runtime.evaluate", params);
            // While a page is left nothing can be asked of it, and nothing is true of the next one yet.
            let left = answer["error"]["message"].as_str().is_some_and(|text| text.contains("navigated or closed"));
            assert!(left || answer["error"].is_null(), "{expression}: {}", answer["error"]);
            if answer["result"]["result"]["value"] == true {
                return;
            }
            sleep(Duration::from_millis(20));
        }
        let shown = self.js("document.body.innerText.slice(0, 2000)");
        panic!("never true: {expression}\n{shown}\n{:?}", self.complaints);
    }

    /// Goes to an address.
    pub fn go(&mut self, address: &str) {
        self.call("Page.navigate", json!({ "url": address }));
        self.until("document.readyState === 'complete' && location.href !== 'about:blank'");
    }

    /// Loads the page again, and waits until it is the new one: the old one is complete until the new one begins.
    pub fn reload(&mut self) {
        self.js("(window.old = true, location.reload())");
        self.until("!window.old && document.readyState === 'complete'");
    }

    /// How large the page is.
    pub fn size(&mut self, width: u32, height: u32) {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
        self.call("Emulation.setDeviceMetricsOverride", size);
    }

    /// Whether the screen is set to dark.
    pub fn dark(&mut self, dark: bool) {
        let value = if dark { "dark" } else { "light" };
        let feature = json!({ "name": "prefers-color-scheme", "value": value });
        self.call("Emulation.setEmulatedMedia", json!({ "features": [feature] }));
    }

    /// Presses and releases a key, with what it types.
    pub fn key(&mut self, key: &str, code: u32, text: &str) {
        for kind in ["keyDown", "keyUp"] {
            let text = if kind == "keyDown" { text } else { "" };
            let event = json!({ "type": kind, "key": key, "code": key, "windowsVirtualKeyCode": code, "text": text });
            self.call("Input.dispatchKeyEvent", event);
        }
    }

    /// Types letters and digits.
    pub fn types(&mut self, text: &str) {
        for letter in text.chars() {
            self.call("Input.insertText", json!({ "text": letter.to_string() }));
        }
    }

    /// Presses Tab until an expression about `document.activeElement`, as `at`, is true.
    #[track_caller]
    pub fn tab_to(&mut self, wanted: &str) {
        for _ in 0..400 {
            self.key("Tab", 9, "");
            if self.js(&format!("((at) => Boolean({wanted}))(document.activeElement)")) == true {
                return;
            }
        }
        panic!("no key leads to {wanted}");
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // Asked politely it ends its helpers too.
        let _ = self.to.write_all(b"{\"id\":0,\"method\":\"Browser.close\"}\0");
        let _ = self.to.flush();
        for _ in 0..100 {
            if self.child.try_wait().is_ok_and(|status| status.is_some()) {
                return;
            }
            sleep(Duration::from_millis(20));
        }
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
