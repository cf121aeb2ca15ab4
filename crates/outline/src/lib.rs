//! outline
