//! Rust source as tokens: just enough of the language to see names, paths and attributes, with
//! comments gone and code that is only compiled for tests marked.

/// What a token is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// A name or keyword.
    Name(String),
    /// `::`
    PathSep,
    /// Any other sign.
    Sign(char),
    /// The inside of a string literal.
    Text(String),
    /// A number or character literal, or a lifetime.
    Other,
}

/// One token.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Its line, from 1.
    pub line: usize,
    /// Part of an item under `#[cfg(test)]`.
    pub test: bool,
}

impl Token {
    /// Whether this is that name.
    pub fn is_name(&self, name: &str) -> bool {
        matches!(&self.kind, Kind::Name(n) if n == name)
    }

    /// Whether this is that sign.
    pub fn is_sign(&self, sign: char) -> bool {
        self.kind == Kind::Sign(sign)
    }

    /// The name, when it is one.
    pub fn name(&self) -> Option<&str> {
        match &self.kind {
            Kind::Name(name) => Some(name),
            _ => None,
        }
    }
}

/// The tokens of a source text.
pub fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Lexer {
        chars: text.chars().collect(),
        at: 0,
        line: 1,
    }
    .run();
    mark_tests(&mut tokens);
    tokens
}

/// The end (exclusive) of the bracketed group that opens at `open`.
pub fn group_end(tokens: &[Token], open: usize) -> usize {
    let mut depth = 0_usize;
    for (i, token) in tokens.iter().enumerate().skip(open) {
        match token.kind {
            Kind::Sign('(' | '[' | '{') => depth += 1,
            Kind::Sign(')' | ']' | '}') => {
                depth = depth.saturating_sub(1);
                if depth == 0 {
                    return i + 1;
                }
            }
            _ => {}
        }
    }
    tokens.len()
}

/// The tokens between the brackets of the attribute whose `#` is at `at`.
pub fn attribute(tokens: &[Token], at: usize) -> Option<std::ops::Range<usize>> {
    tokens.get(at).filter(|t| t.is_sign('#'))?;
    let inner = usize::from(tokens.get(at + 1).is_some_and(|t| t.is_sign('!')));
    let open = at + 1 + inner;
    tokens.get(open).filter(|t| t.is_sign('['))?;
    Some(open + 1..group_end(tokens, open).saturating_sub(1))
}

fn mark_tests(tokens: &mut [Token]) {
    let mut at = 0;
    while at < tokens.len() {
        let Some(inside) = attribute(tokens, at) else {
            at += 1;
            continue;
        };
        let words = tokens.get(inside.clone()).unwrap_or_default();
        let for_tests = words.first().is_some_and(|t| t.is_name("cfg"))
            && words.iter().any(|t| t.is_name("test"))
            && !words.iter().any(|t| t.is_name("not"));
        at = inside.end + 1;
        if for_tests {
            let end = item_end(tokens, at);
            for token in tokens.iter_mut().take(end).skip(at) {
                token.test = true;
            }
            at = end;
        }
    }
}

/// The end (exclusive) of the item at `at`: its `;`, or the end of its braces.
fn item_end(tokens: &[Token], mut at: usize) -> usize {
    while let Some(token) = tokens.get(at) {
        match token.kind {
            Kind::Sign(';') => return at + 1,
            Kind::Sign('{') => {
                let end = group_end(tokens, at);
                // The braces of `use a::{b, c};` are not the end.
                return end + usize::from(tokens.get(end).is_some_and(|t| t.is_sign(';')));
            }
            Kind::Sign('(' | '[') => at = group_end(tokens, at),
            _ => at += 1,
        }
    }
    tokens.len()
}

struct Lexer {
    chars: Vec<char>,
    at: usize,
    line: usize,
}

impl Lexer {
    fn peek(&self, ahead: usize) -> Option<char> {
        self.chars.get(self.at + ahead).copied()
    }

    fn bump(&mut self) -> Option<char> {
        let c = self.peek(0)?;
        self.at += 1;
        self.line += usize::from(c == '\n');
        Some(c)
    }

    fn run(mut self) -> Vec<Token> {
        let mut tokens = Vec::new();
        while let Some(c) = self.peek(0) {
            let line = self.line;
            if let Some(kind) = self.token(c) {
                tokens.push(Token {
                    kind,
                    line,
                    test: false,
                });
            }
        }
        tokens
    }

    /// Takes at least one character.
    fn token(&mut self, c: char) -> Option<Kind> {
        match (c, self.peek(1)) {
            ('/', Some('/')) => {
                while self.peek(0).is_some_and(|c| c != '\n') {
                    self.bump();
                }
                None
            }
            ('/', Some('*')) => {
                self.block_comment();
                None
            }
            ('"', _) => Some(self.string()),
            ('\'', _) => Some(self.quote()),
            (':', Some(':')) => {
                self.at += 2;
                Some(Kind::PathSep)
            }
            _ if c.is_ascii_digit() => Some(self.number()),
            _ if c == '_' || c.is_alphabetic() => Some(self.word()),
            _ => {
                self.bump();
                (!c.is_whitespace()).then_some(Kind::Sign(c))
            }
        }
    }

    fn block_comment(&mut self) {
        let mut depth = 0_usize;
        loop {
            match (self.peek(0), self.peek(1)) {
                (Some('/'), Some('*')) => {
                    depth += 1;
                    self.at += 2;
                }
                (Some('*'), Some('/')) => {
                    depth -= 1;
                    self.at += 2;
                }
                (Some(_), _) => {
                    self.bump();
                }
                (None, _) => return,
            }
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) -> Kind {
        self.bump();
        let mut text = String::new();
        while let Some(c) = self.bump() {
            match c {
                '"' => break,
                '\\' => {
                    self.bump();
                }
                _ => text.push(c),
            }
        }
        Kind::Text(text)
    }

    /// `r"…"`, `r#"…"#`, with the opening `r` (and `b`, `c`) already taken.
    fn raw_string(&mut self) -> Kind {
        let mut hashes = 0;
        while self.peek(0) == Some('#') {
            self.bump();
            hashes += 1;
        }
        self.bump();
        let mut text = String::new();
        while let Some(c) = self.bump() {
            if c == '"' && (0..hashes).all(|i| self.peek(i) == Some('#')) {
                self.at += hashes;
                break;
            }
            text.push(c);
        }
        Kind::Text(text)
    }

    /// A character literal or a lifetime.
    fn quote(&mut self) -> Kind {
        self.bump();
        let lifetime = self.peek(0).is_some_and(|c| c == '_' || c.is_alphabetic())
            && self.peek(1) != Some('\'');
        if lifetime {
            self.letters();
        } else {
            while let Some(c) = self.bump() {
                match c {
                    '\'' => break,
                    '\\' => {
                        self.bump();
                    }
                    _ => {}
                }
            }
        }
        Kind::Other
    }

    fn number(&mut self) -> Kind {
        self.letters();
        if self.peek(0) == Some('.') && self.peek(1).is_some_and(|c| c.is_ascii_digit()) {
            self.bump();
            self.letters();
        }
        Kind::Other
    }

    fn letters(&mut self) -> String {
        let mut word = String::new();
        while let Some(c) = self.peek(0).filter(|c| *c == '_' || c.is_alphanumeric()) {
            word.push(c);
            self.bump();
        }
        word
    }

    fn word(&mut self) -> Kind {
        let word = self.letters();
        let next = (self.peek(0), self.peek(1));
        match (word.as_str(), next) {
            ("b" | "c", (Some('"'), _)) => self.string(),
            ("b", (Some('\''), _)) => self.quote(),
            ("r" | "br" | "cr", (Some('"'), _) | (Some('#'), Some('"' | '#'))) => self.raw_string(),
            // A raw name, `r#type`.
            ("r", (Some('#'), _)) => {
                self.bump();
                Kind::Name(self.letters())
            }
            _ => Kind::Name(word),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(text: &str) -> Vec<String> {
        tokens(text)
            .iter()
            .filter_map(|t| t.name().map(str::to_owned))
            .collect()
    }

    #[test]
    fn comments_and_literals_hold_no_names() {
        let text = r####"
            // gone /* gone
            /* gone /* gone */ gone */
            a("gone \" gone", 'g', '\'', b'g', b"gone", r#"gone " gone"#, br"gone");
            fn b<'gone>(c: &'gone str) { d.e(1.5_f64.f(), 0..g) }
            r#type
        "####;
        assert_eq!(
            names(text),
            ["a", "fn", "b", "c", "str", "d", "e", "f", "g", "type"]
        );
    }

    #[test]
    fn lines_are_counted_through_comments_and_strings() {
        let tokens = tokens("/* \n */ \"\n\" // x\n'\\n' name");
        let last = tokens.last().unwrap();
        assert!(last.is_name("name"));
        assert_eq!(last.line, 4);
    }

    #[test]
    fn code_for_tests_is_marked_and_the_rest_is_not() {
        let text = "
            a; #[cfg(test)] use b::{c, d}; e;
            #[cfg(test)] #[rustfmt::skip] mod f { fn g() { h } } i;
            #[cfg(not(test))] mod j { k }
            #[cfg(all(test, unix))] fn l() { m } n
        ";
        let live: Vec<_> = tokens(text)
            .into_iter()
            .filter(|t| !t.test)
            .filter_map(|t| t.name().map(str::to_owned))
            .filter(|n| n.len() == 1)
            .collect();
        assert_eq!(live, ["a", "e", "i", "j", "k", "n"]);
    }

    #[test]
    fn unfinished_text_does_not_hang() {
        for text in [
            "\"",
            "/*",
            "r#\"",
            "'",
            "#[",
            "#[cfg(test)]",
            "b'",
            "mod x {",
        ] {
            tokens(text);
        }
    }
}
