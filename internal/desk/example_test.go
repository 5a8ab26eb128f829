package desk_test

import (
	"context"
	"fmt"
	"net"
	"net/http"

	"hubrule/internal/desk"
)

func ExampleDesk_Serve() {
	d, err := desk.Open("suv", nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		fmt.Println(err)
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	ended := make(chan error)
	go func() { ended <- d.Serve(ctx, l, "127.0.0.1") }()
	answer, err := http.Get("http://" + l.Addr().String() + "/tweaks")
	if err != nil {
		fmt.Println(err)
		return
	}
	answer.Body.Close()
	fmt.Println(answer.Status)
	stop()
	fmt.Println(<-ended)
	// Output:
	// 200 OK
	// <nil>
}
