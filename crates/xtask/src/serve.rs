//! A small static server, for this machine only.

use std::fs::File;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::sync::Arc;
use std::thread::{self, JoinHandle};

use tiny_http::{Header, Method, Request, Response, Server, StatusCode};

use crate::build;
use crate::options::{Profile, Serve};
use crate::site::{self, Site};
use crate::trouble::Trouble;
use crate::workspace::Workspace;

/// A browser asks for several files at once, and keeps connections open.
const THREADS: usize = 8;

/// How many ports are tried, from the asked one upwards.
const PORTS_TRIED: u16 = 50;

/// Builds the page if asked to, and serves it until the program is stopped.
pub fn serve(workspace: &Workspace, how: &Serve) -> Result<(), Trouble> {
    if how.build {
        build::build(workspace, Profile::Page)?;
    }
    let running = start(Site { folder: workspace.dist(), base: "/".to_owned() }, how.port)?;
    println!("Stickleaf is at {}", running.url);
    running.wait();
    Ok(())
}

/// A server that answers until it is dropped.
pub struct Running {
    /// Where the site's first page is.
    pub url: String,
    server: Arc<Server>,
    threads: Vec<JoinHandle<()>>,
}

/// Starts to serve a site on the first free port from `port` upwards, or on any free one if `port` is 0.
///
/// It listens on the loopback address, so no other machine can reach it.
pub fn start(site: Site, port: u16) -> Result<Running, Trouble> {
    let (listener, address) = listen(port)?;
    let server = Server::from_listener(listener, None)
        .map_err(|error| Trouble::Start { command: "server".to_owned(), source: io::Error::other(error) })?;
    let server = Arc::new(server);
    let url = format!("http://{address}{}", site.base);
    let threads = (0..THREADS)
        .map(|_| {
            let (server, site) = (Arc::clone(&server), site.clone());
            thread::spawn(move || {
                while let Ok(request) = server.recv() {
                    answer(&site, request);
                }
            })
        })
        .collect();
    Ok(Running { url, server, threads })
}

impl Running {
    /// Comes back only if the server breaks.
    fn wait(mut self) {
        for thread in self.threads.drain(..) {
            let _ = thread.join();
        }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        for _ in &self.threads {
            self.server.unblock();
        }
        for thread in self.threads.drain(..) {
            let _ = thread.join();
        }
    }
}

fn listen(first: u16) -> Result<(TcpListener, SocketAddr), Trouble> {
    let last = if first == 0 { 0 } else { first.saturating_add(PORTS_TRIED - 1) };
    for port in first..=last {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, port)).and_then(|listener| {
            let address = listener.local_addr()?;
            Ok((listener, address))
        }) {
            Ok(found) => return Ok(found),
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => {}
            Err(source) => return Err(Trouble::Start { command: format!("server on port {port}"), source }),
        }
    }
    Err(Trouble::Ports { first, last })
}

fn answer(site: &Site, request: Request) {
    let sent = match request.method() {
        Method::Get | Method::Head => {
            let found = site::requested_file(site, request.url()).and_then(|path| {
                let file = File::open(&path).ok()?;
                Some((file, site::media_type(&path)))
            });
            match found {
                Some((file, media_type)) => request.respond(
                    Response::from_file(file)
                        .with_header(header("Content-Type", media_type))
                        .with_header(header("Cache-Control", "no-cache")),
                ),
                None => request.respond(refusal(404, "there is no such file here\n")),
            }
        }
        _ => request.respond(refusal(405, "this server only gives files\n")),
    };
    // The browser may have turned away before its answer came; that is its own business.
    drop(sent);
}

fn refusal(status: u16, text: &str) -> Response<io::Cursor<Vec<u8>>> {
    Response::from_string(text)
        .with_status_code(StatusCode(status))
        .with_header(header("Content-Type", "text/plain; charset=utf-8"))
        .with_header(header("Cache-Control", "no-cache"))
}

fn header(name: &str, value: &str) -> Header {
    Header::from_bytes(name, value).expect("our header names and values are plain ASCII")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    fn ask(url: &str, request: &str) -> String {
        let host = url.trim_start_matches("http://").split('/').next().unwrap();
        let mut stream = TcpStream::connect(host).unwrap();
        write!(stream, "{request} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn it_gives_files_with_their_type_and_refuses_the_rest() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("index.html"), "<title>leaf</title>").unwrap();
        let running = start(Site { folder: folder.path().to_owned(), base: "/".to_owned() }, 0).unwrap();

        let home = ask(&running.url, "GET /");
        assert!(home.starts_with("HTTP/1.1 200"), "{home}");
        assert!(home.contains("Content-Type: text/html; charset=utf-8\r\n"), "{home}");
        assert!(home.contains("Cache-Control: no-cache\r\n"), "{home}");
        assert!(home.ends_with("<title>leaf</title>"), "{home}");

        for (file, media_type) in [
            ("stickleaf.webmanifest", "application/manifest+json"),
            ("service-worker.js", "text/javascript; charset=utf-8"),
        ] {
            fs::write(folder.path().join(file), "leaf").unwrap();
            let answer = ask(&running.url, &format!("GET /{file}"));
            assert!(answer.contains(&format!("Content-Type: {media_type}\r\n")), "{answer}");
            assert!(answer.contains("Cache-Control: no-cache\r\n"), "{answer}");
        }

        let head = ask(&running.url, "HEAD /");
        assert!(head.starts_with("HTTP/1.1 200") && !head.contains("leaf"), "{head}");
        assert!(ask(&running.url, "GET /../Cargo.toml").starts_with("HTTP/1.1 404"));
        assert!(ask(&running.url, "POST /").starts_with("HTTP/1.1 405"));
    }

    #[test]
    fn a_taken_port_leads_to_a_later_one() {
        let (taken, address) = listen(0).unwrap();
        // The next numbers may be taken as well, or be past the end, but the taken one itself must not be given.
        if let Ok((_listener, found)) = listen(address.port()) {
            assert!(found.port() > address.port());
        }
        drop(taken);
    }
}
