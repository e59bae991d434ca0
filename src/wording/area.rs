//! How an area of words is declared.

/// Declares the words of one area as a trait that every language implements.
///
/// Each line is a text with what it is made from; `&self` is left out. No line has a default, so that a language which
/// lacks a text does not compile. In tests the same lines also make the marked language (`marked.rs`), which says
/// what English says with every letter marked: what a page shows unmarked did not come from here.
macro_rules! area {
    (
        $(#[$about:meta])*
        $area:ident;
        $( $(#[$doc:meta])* fn $text:ident($($given:ident: $kind:ty),* $(,)?) -> $out:ty; )+
    ) => {
        $(#[$about])*
        pub trait $area: Sync {
            $( $(#[$doc])* fn $text(&self, $($given: $kind),*) -> $out; )+
        }

        #[cfg(test)]
        impl $area for $crate::wording::marked::Marked {
            $( fn $text(&self, $($given: $kind),*) -> $out {
                $crate::wording::marked::Marks::marked(<$crate::wording::en::English as $area>::$text(
                    &$crate::wording::en::English, $($given),*
                ))
            } )+
        }
    };
}

pub(super) use area;
