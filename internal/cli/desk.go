package cli

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os/exec"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"hubrule/internal/desk"
	"hubrule/internal/files"
)

// usualPort is where the desk listens if it can: a browser keeps what a page remembers by its port. It lies in the range that nobody is
// assigned (RFC 6335, 6, MEM), above what Linux gives to outgoing connections.
const usualPort = "62040"

func newDesk(set *files.Set) *cobra.Command {
	var listen string
	var noBrowser bool
	c := &cobra.Command{
		Use:   "desk [FILE]",
		Short: "Change a sheet where it stands, on a page in the browser",
		Long: "desk serves a page on which every number, guide and setting of a sheet is changed where it stands, and\n" +
			"prints its address. FILE is a brief, a profile, a marks file, a photograph, a class file or a segment's\n" +
			"name. Ctrl-C ends it. Only this machine reaches the page, at port " + usualPort + " or a free one; with another\n" +
			"address of --listen, others on the network do who know a word that is printed.\n\n" + caution,
		Example: "  hubrule desk\n" +
			"  hubrule desk brief.yaml\n" +
			"  hubrule desk side.jpg\n" +
			"  hubrule desk class.yaml\n" +
			"  hubrule desk suv --listen 127.0.0.1:8000 --no-browser",
		Args:              argCount(0, 1, "one file or segment at a time; found %d"),
		ValidArgsFunction: completeSegments,
		RunE: func(c *cobra.Command, args []string) error {
			return runDesk(c, set, strings.Join(args, ""), listen, !noBrowser)
		},
	}
	c.Flags().StringVar(&listen, "listen", "", "the `ADDRESS:PORT` to listen on; port 0 is a free one (127.0.0.1:"+usualPort+")")
	c.Flags().BoolVar(&noBrowser, "no-browser", false, "only print the address")
	return c
}

// runDesk serves until the command is interrupted.
func runDesk(c *cobra.Command, set *files.Set, named, listen string, browse bool) error {
	host, port, err := splitListen(listen)
	if err != nil {
		return err
	}
	d, err := desk.Open(named, c.InOrStdin())
	if err != nil {
		return err
	}
	l, err := listenAt(c.Context(), host, port, listen == "")
	if err != nil {
		return fmt.Errorf("--listen %s: %w", net.JoinHostPort(host, port), err)
	}
	defer l.Close()
	_, port, _ = net.SplitHostPort(l.Addr().String())
	reached := addresses(host, port)
	fmt.Fprintln(c.OutOrStdout(), strings.Join(reached, "\n"))
	if !desk.IsLoopback(host) {
		fmt.Fprintln(c.OutOrStdout(), "word: "+d.AskForWord())
		tell(c.ErrOrStderr(), "warning", "others on this network can read what passes between a browser and the desk: it is plain http")
	}
	if browse {
		if err := openBrowser(reached[0]); err != nil {
			tell(c.ErrOrStderr(), "note", "no browser was opened; open the address yourself")
		}
	}
	// Every call leaves some megabytes and nothing stays: they are collected together, but before they fill a small machine.
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(1 << 30))
	if err := set.Commit(); err != nil { // nothing waits to be written: an interrupt ends the desk and nothing else
		return err
	}
	return d.Serve(c.Context(), l, host)
}

// splitListen reads --listen.
func splitListen(listen string) (host, port string, err error) {
	if listen == "" {
		return "127.0.0.1", usualPort, nil
	}
	host, port, err = net.SplitHostPort(listen)
	if err != nil || host == "" || port == "" {
		return "", "", usagef("--listen %s: want ADDRESS:PORT, like 127.0.0.1:8000 or [::1]:8000", listen)
	}
	return host, port, nil
}

// listenAt listens, at a free port where the one that is wanted is only usual and taken.
func listenAt(ctx context.Context, host, port string, anyPort bool) (net.Listener, error) {
	var config net.ListenConfig
	l, err := config.Listen(ctx, "tcp", net.JoinHostPort(host, port))
	if anyPort && errors.Is(err, syscall.EADDRINUSE) {
		l, err = config.Listen(ctx, "tcp", net.JoinHostPort(host, "0"))
	}
	var detail *net.OpError
	if errors.As(err, &detail) {
		err = detail.Err
	}
	return l, err
}

// addresses lists where the page is reached; all addresses of the machine where it listens on all.
func addresses(host, port string) (out []string) {
	if ip := net.ParseIP(host); ip != nil && ip.IsUnspecified() {
		all, _ := net.InterfaceAddrs() // the one that was given stands for those that are not known
		for _, a := range all {
			if own, ok := a.(*net.IPNet); ok && own.IP.IsGlobalUnicast() && (ip.To4() == nil || own.IP.To4() != nil) {
				out = append(out, "http://"+net.JoinHostPort(own.IP.String(), port)+"/")
			}
		}
	}
	if out == nil {
		out = []string{"http://" + net.JoinHostPort(host, port) + "/"}
	}
	return out
}

// openBrowser opens an address in whatever the user has.
func openBrowser(address string) error {
	command := []string{"xdg-open"}
	switch runtime.GOOS {
	case "darwin":
		command = []string{"open"}
	case "windows":
		command = []string{"rundll32", "url.dll,FileProtocolHandler"}
	}
	c := exec.Command(command[0], append(command[1:], address)...)
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait() // it may be the browser itself
	return nil
}
