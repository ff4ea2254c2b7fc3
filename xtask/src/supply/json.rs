//! Reads JSON: npm's files have no other reader here, and these commands are kept small.

/// How deep values may lie in each other.
const DEEPEST: usize = 64;

/// A value.
#[derive(Debug, Clone, PartialEq)]
pub enum Json {
    /// `null`, `true`, `false` or a number, as it stands.
    Plain(String),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Json>),
    /// Names and values, in their order.
    Map(Vec<(String, Json)>),
}

impl Json {
    /// The value of a text; `None` when it is not JSON.
    pub fn read(text: &str) -> Option<Self> {
        let mut reader = Reader { rest: text };
        let value = reader.value(0)?;
        reader.space();
        reader.rest.is_empty().then_some(value)
    }

    /// What a name stands for.
    pub fn get(&self, name: &str) -> Option<&Self> {
        self.entries()
            .iter()
            .find(|(key, _)| key == name)
            .map(|(_, value)| value)
    }

    /// The text, where it is one.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }

    /// Whether it is `true`.
    pub fn is_true(&self) -> bool {
        matches!(self, Self::Plain(word) if word == "true")
    }

    /// Names and values; none where it is not a map.
    pub fn entries(&self) -> &[(String, Self)] {
        match self {
            Self::Map(entries) => entries,
            _ => &[],
        }
    }
}

struct Reader<'a> {
    rest: &'a str,
}

impl Reader<'_> {
    fn space(&mut self) {
        self.rest = self.rest.trim_start_matches([' ', '\t', '\r', '\n']);
    }

    fn take(&mut self, sign: char) -> Option<()> {
        self.space();
        self.rest = self.rest.strip_prefix(sign)?;
        Some(())
    }

    fn value(&mut self, depth: usize) -> Option<Json> {
        if depth > DEEPEST {
            return None;
        }
        self.space();
        match self.rest.chars().next()? {
            '"' => self.string().map(Json::Text),
            '[' => {
                self.take('[')?;
                let mut list = Vec::new();
                self.until(']', |reader| {
                    list.push(reader.value(depth + 1)?);
                    Some(())
                })?;
                Some(Json::List(list))
            }
            '{' => {
                self.take('{')?;
                let mut map = Vec::new();
                self.until('}', |reader| {
                    reader.space();
                    let name = reader.string()?;
                    reader.take(':')?;
                    map.push((name, reader.value(depth + 1)?));
                    Some(())
                })?;
                Some(Json::Map(map))
            }
            _ => {
                let end = self
                    .rest
                    .find(|c: char| !(c.is_ascii_alphanumeric() || "+-.".contains(c)))
                    .unwrap_or(self.rest.len());
                let (word, rest) = self.rest.split_at(end);
                self.rest = rest;
                (!word.is_empty()).then(|| Json::Plain(word.to_owned()))
            }
        }
    }

    /// Items with commas between them, up to the closing sign.
    fn until(&mut self, close: char, mut item: impl FnMut(&mut Self) -> Option<()>) -> Option<()> {
        if self.take(close).is_some() {
            return Some(());
        }
        loop {
            item(self)?;
            if self.take(close).is_some() {
                return Some(());
            }
            self.take(',')?;
        }
    }

    fn string(&mut self) -> Option<String> {
        let mut text = String::new();
        let mut chars = self.rest.strip_prefix('"')?.chars();
        loop {
            match chars.next()? {
                '"' => break,
                '\\' => match chars.next()? {
                    'n' => text.push('\n'),
                    't' => text.push('\t'),
                    'r' => text.push('\r'),
                    'b' => text.push('\u{8}'),
                    'f' => text.push('\u{c}'),
                    'u' => {
                        let code: String = chars.by_ref().take(4).collect();
                        let code = u32::from_str_radix(&code, 16).ok()?;
                        // Half of a pair by itself, and here pairs too, stand for no letter.
                        text.push(char::from_u32(code).unwrap_or('\u{fffd}'));
                    }
                    other => text.push(other),
                },
                other => text.push(other),
            }
        }
        self.rest = chars.as_str();
        Some(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_npm_writes_is_read() {
        let read = Json::read(
            r#" {"packages": {"": {"v": "1\"\u0041\n"}, "a/b": {"dev": true, "n": -1.5e3, "x": [ ]}}, "e": {} } "#,
        )
        .unwrap();
        let packages = read.get("packages").unwrap();
        assert_eq!(packages.entries().len(), 2);
        assert_eq!(
            packages.get("").unwrap().get("v").unwrap().text(),
            Some("1\"A\n")
        );
        let one = packages.get("a/b").unwrap();
        assert!(one.get("dev").unwrap().is_true());
        assert_eq!(one.get("n"), Some(&Json::Plain("-1.5e3".to_owned())));
        assert_eq!(one.get("x"), Some(&Json::List(Vec::new())));
        assert_eq!(one.get("none"), None);
    }

    #[test]
    fn what_is_not_json_is_not_read() {
        for bad in [
            "",
            "{",
            "{\"a\":}",
            "[1,]",
            "{\"a\" 1}",
            "\"a",
            "{} x",
            "\"\\u00g0\"",
        ] {
            assert_eq!(Json::read(bad), None, "{bad}");
        }
        assert_eq!(Json::read(&"[".repeat(100_000)), None);
    }
}
