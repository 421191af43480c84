using Broodtide.Server.Opening;

namespace Broodtide.Server.Tests.Opening;

public sealed class OpenAddressTests
{
    [Theory]
    [InlineData("broodtide.home.arpa", "https://broodtide.home.arpa:5443", "broodtide.home.arpa")]
    [InlineData("Broodtide.Home.Arpa.", "https://broodtide.home.arpa:5443", "broodtide.home.arpa")]
    [InlineData("shelf.local:443", "https://shelf.local", "shelf.local")]
    [InlineData("https://shelf.local:8443/", "https://shelf.local:8443", "shelf.local")]
    [InlineData("https://shelf.local", "https://shelf.local", "shelf.local")]
    [InlineData("shelf", "https://shelf:5443", "shelf")]
    [InlineData("192.168.1.20", "https://192.168.1.20:5443", "192.168.1.20")]
    [InlineData("[fd00::20]:8443", "https://[fd00::20]:8443", "fd00::20")]
    [InlineData("fd00::20", "https://[fd00::20]:5443", "fd00::20")]
    [InlineData("shelf.local:8443, 10.0.0.7 shelf", "https://shelf.local:8443", "shelf.local shelf 10.0.0.7")]
    public void Names_of_a_house_are_understood(string typed, string origin, string names)
    {
        var (address, trouble) = OpenAddress.Parse(typed);

        Assert.Null(trouble);
        Assert.Equal(origin, address!.Origin);
        Assert.Equal(names.Split(' '), address.Names.All);
    }

    [Theory]
    [InlineData("", "open-name")]
    [InlineData("localhost", "open-name")]
    [InlineData("*.home.arpa", "open-name")]
    [InlineData("a_b.local", "open-name")]
    [InlineData("brütet.local", "open-name")]
    [InlineData("http://shelf.local", "open-port")]
    [InlineData("127.0.0.1", "open-address")]
    [InlineData("0.0.0.0", "open-address")]
    [InlineData("::1", "open-address")]
    [InlineData("203.0.113.9", "open-address")]
    [InlineData("2001:db8::1", "open-address")]
    [InlineData("shelf.local:0", "open-port")]
    [InlineData("shelf.local:70000", "open-port")]
    [InlineData("shelf.local, 10.0.0.7:80", "open-port")]
    public void What_is_no_name_of_a_house_is_refused_by_name(string typed, string code)
    {
        var (address, trouble) = OpenAddress.Parse(typed);

        Assert.Null(address);
        Assert.Equal(code, trouble!.Code);
    }
}
