//! packer
