using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using Broodtide.Workbench.People;

namespace Broodtide.Server.Tests.Attacks;

/// <summary>Too much, too slow, too deep, and two requests in one.</summary>
public sealed class BodyAttacks(BesiegedHouse house) : IClassFixture<BesiegedHouse>
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    private string Host => $"Host: {house.Address.Authority}\r\n";

    [Theory]
    [InlineData("api/people/sign-in")]
    [InlineData("api/journal/give")]
    [InlineData("api/sharing/discard")]
    [InlineData("api/calendar")]
    public async Task A_body_that_claims_gigabytes_is_refused_before_it_is_read(string path)
    {
        var answer = await house.Raw(
            $"POST /{path} HTTP/1.1\r\n{Host}Content-Type: application/json\r\nContent-Length: 5000000000\r\n\r\n"
        );
        Assert.InRange(BesiegedHouse.StatusOf(answer), 400, 499);
        await house.Lives();
    }

    [Theory]
    [InlineData("api/journal/give")]
    [InlineData("api/sharing/discard")]
    [InlineData("api/photos/lacking")]
    public async Task A_body_without_an_end_is_cut_off(string path)
    {
        using var endless = new StreamContent(new Endless());
        endless.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        HttpStatusCode? status = null;
        try
        {
            using var answer = await house.Owner.Send(HttpMethod.Post, path, endless, true);
            status = answer.StatusCode;
        }
        catch (HttpRequestException)
        {
            // The connection was closed in the middle of the sending, which is as good.
        }

        Assert.True(
            status is null or (>= HttpStatusCode.BadRequest and < HttpStatusCode.InternalServerError)
        );
        await house.Lives();
    }

    [Theory]
    [InlineData("api/journal/meet")]
    [InlineData("api/journal/lacking")]
    [InlineData("api/sharing/let-in")]
    [InlineData("api/people/invitations")]
    public async Task JSON_that_is_deeper_than_any_honest_one_is_refused(string path)
    {
        using var deep = new StringContent(
            new string('[', 100_000) + new string(']', 100_000),
            null,
            "application/json"
        );
        using var answer = await house.Owner.Send(HttpMethod.Post, path, deep, true);
        Assert.InRange((int)answer.StatusCode, 400, 499);
        await house.Lives();
    }

    [Fact]
    public async Task Headers_without_an_end_are_refused()
    {
        var many = await house.Raw(
            $"GET / HTTP/1.1\r\n{Host}"
                + string.Concat(Enumerable.Range(0, 2000).Select(i => $"X-{i}: y\r\n"))
                + "\r\n"
        );
        Assert.Equal(431, BesiegedHouse.StatusOf(many));
        var long_ = await house.Raw($"GET /{new string('a', 100_000)} HTTP/1.1\r\n{Host}\r\n");
        Assert.InRange(BesiegedHouse.StatusOf(long_), 400, 499);
        await house.Lives();
    }

    // Request smuggling (RFC 9112, section 6.1): two lengths for one body, so that the rest is taken for a second request.
    [Theory]
    [InlineData("Content-Length: 4\r\nContent-Length: 40\r\n")]
    [InlineData("Transfer-Encoding: chunked, identity\r\n")]
    [InlineData("Transfer-Encoding: xchunked\r\n")]
    [InlineData("Content-Length: -1\r\n")]
    [InlineData("Content-Length: 4,4\r\n")]
    public async Task A_second_request_cannot_be_hidden_in_a_first(string lengths)
    {
        var answer = await house.Raw(
            $"POST /api/people/door HTTP/1.1\r\n{Host}{lengths}\r\n0\r\n\r\nGET /api/people/door HTTP/1.1\r\n{Host}"
                + "Connection: close\r\n\r\n"
        );
        Assert.InRange(BesiegedHouse.StatusOf(answer), 400, 599);
        Assert.DoesNotContain("hasOwner", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_header_cannot_be_written_into_an_answer()
    {
        var answer = await house.Raw(
            $"GET /api/calendar/x%0d%0aSet-Cookie:%20planted=1.ics HTTP/1.1\r\n{Host}Connection: close\r\n\r\n"
        );
        Assert.DoesNotContain("\r\nSet-Cookie: planted", answer, StringComparison.OrdinalIgnoreCase);
    }

    // Many clients that begin and never end; somebody else is served all the while.
    [Fact]
    public async Task Clients_that_never_finish_keep_nobody_from_being_served()
    {
        var slow = new List<TcpClient>();
        try
        {
            for (var i = 0; i < 300; i++)
            {
                var client = await house.Connect();
                slow.Add(client);
                var begun =
                    i % 2 == 0
                        ? $"GET / HTTP/1.1\r\n{Host}X-Slow: "
                        : $"POST /api/people/sign-in HTTP/1.1\r\n{Host}Content-Type: application/json\r\nContent-Length: 900\r\n\r\n{{";
                await client.GetStream().WriteAsync(Encoding.Latin1.GetBytes(begun), Stop);
            }

            for (var i = 0; i < 20; i++)
            {
                await house.Lives();
            }

            using var owner = await house.Owner.Get(PeopleAddresses.MySessions);
            Assert.Equal(HttpStatusCode.OK, owner.StatusCode);
            // A body that trickles is given up: the server ends it by itself (the framework's least rate and its grace).
            Assert.InRange(BesiegedHouse.StatusOf(await BesiegedHouse.Answer(slow[1].GetStream())), 0, 499);
            Assert.InRange(BesiegedHouse.StatusOf(await BesiegedHouse.Answer(slow[0].GetStream())), 0, 499);
        }
        finally
        {
            slow.ForEach(client => client.Dispose());
        }
    }

    private sealed class Endless : Stream
    {
        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            buffer.AsSpan(offset, count).Fill((byte)'[');
            return count;
        }

        public override void Flush() { }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
