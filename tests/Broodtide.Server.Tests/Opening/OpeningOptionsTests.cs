using Broodtide.Server.Tests.Kit;

namespace Broodtide.Server.Tests.Opening;

public sealed class OpeningOptionsTests
{
    [Theory]
    [InlineData("--open shelf.local")]
    [InlineData("--open shelf.local:8443,10.0.0.7 --trust-port 0")]
    [InlineData("--open shrimps.example.org --behind-proxy 127.0.0.1")]
    [InlineData(
        "--open shrimps.example.org --behind-proxy 127.0.0.1,172.17.0.0/16 --urls http://127.0.0.1:6000"
    )]
    [InlineData("--open shrimps.example.org --certificate a.pem --certificate-key k.pem")]
    [InlineData("--demo")]
    public async Task What_goes_together_starts(string typed)
    {
        using var folder = new TemporaryFolder();

        var (code, _, complained) = await Typed.Run(folder, typed.Split(' '));

        Assert.Equal(Typed.Started, code);
        Assert.Empty(complained);
    }

    [Theory]
    [InlineData("--open shelf.local --demo", "do not go together")]
    [InlineData("--open shelf.local --urls http://127.0.0.1:6000", "do not go together")]
    [InlineData(
        "--open shelf.local --behind-proxy 127.0.0.1 --certificate a --certificate-key b",
        "do not go together"
    )]
    [InlineData("--open shelf.local --certificate a", "--certificate needs --certificate-key")]
    [InlineData("--open shelf.local --certificate-key a", "--certificate needs --certificate-key")]
    [InlineData("--behind-proxy 127.0.0.1", "--behind-proxy needs --open")]
    [InlineData("--certificate a --certificate-key b", "--certificate needs --open")]
    [InlineData("--open shelf.local --behind-proxy everybody", "no addresses of proxies")]
    [InlineData("--open shelf.local --behind-proxy 0.0.0.0/0", "no addresses of proxies")]
    [InlineData("--open localhost", "no name of a server")]
    [InlineData("--open 203.0.113.9", "no address of the house")]
    [InlineData(
        "--open shelf.local --behind-proxy 127.0.0.1 --urls http://0.0.0.0:5087",
        "reached from outside"
    )]
    [InlineData("--open shelf.local:5088", "cannot be the port of the trust page")]
    [InlineData("--open shelf.local --trust-port 70000", "cannot be the port of the trust page")]
    public async Task What_does_not_go_together_is_said_and_nothing_starts(string typed, string reason)
    {
        using var folder = new TemporaryFolder();

        var (code, _, complained) = await Typed.Run(folder, typed.Split(' '));

        Assert.Equal(2, code);
        Assert.Contains(reason, complained, StringComparison.Ordinal);
    }
}
