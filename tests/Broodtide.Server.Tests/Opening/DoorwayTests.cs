using System.Net;
using Broodtide.Server.Certificates;
using Broodtide.Server.Opening;
using Broodtide.Server.Tests.Kit;
using Broodtide.Storage.Households;
using NodaTime;
using NodaTime.Testing;

namespace Broodtide.Server.Tests.Opening;

/// <summary>Whether the door opens, asked without opening it.</summary>
public sealed class DoorwayTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 11, 25, 12, 0);

    [Fact]
    public void The_first_opening_keeps_the_address_and_a_refused_one_keeps_nothing()
    {
        using var folder = new TemporaryFolder();
        using var house = HouseFile.Open(folder.File("house.db"));
        var addresses = new HouseAddresses(house);

        Assert.Equal("open-without-owner", Door(folder, "shelf.local", Start).Prepare(house)?.Code);
        Assert.Null(addresses.Current());

        StartedServer.AddOwner(folder);
        Assert.Null(Door(folder, "shelf.local", Start).Prepare(house));
        Assert.Equal("https://shelf.local:5443", addresses.Current());

        var other = Door(folder, "broodtide.home.arpa", Start).Prepare(house);
        Assert.Equal("address-kept", other?.Code);
        Assert.Equal("https://shelf.local:5443", addresses.Current());
    }

    [Fact]
    public void An_authority_in_its_last_ninety_days_is_spoken_of_at_each_start()
    {
        using var folder = new TemporaryFolder();
        using var house = HouseFile.Open(folder.File("house.db"));
        StartedServer.AddOwner(folder);
        var first = Door(folder, "shelf.local", Start);
        Assert.Null(first.Prepare(house));
        Assert.Null(first.Concern());

        var late = Door(
            folder,
            "shelf.local",
            Start + Duration.FromDays(CertificateMaking.AuthorityDays - 60)
        );
        Assert.Null(late.Prepare(house));
        Assert.Equal("started-authority-near-end", late.Concern()?.Code);
    }

    [Fact]
    public void Behind_a_proxy_no_certificate_is_made()
    {
        using var folder = new TemporaryFolder();
        using var house = HouseFile.Open(folder.File("house.db"));
        StartedServer.AddOwner(folder);
        var address = OpenAddress.Parse("shrimps.example.org", 443).Address!;
        var door = new Doorway(
            new(address, [IPNetwork.Parse("127.0.0.1/32")], null, null),
            folder.Folder,
            new FakeClock(Start)
        );

        Assert.Null(door.Prepare(house));
        Assert.Null(door.Concern());
        Assert.False(Directory.Exists(folder.File("certificates")));
        Assert.Equal("https://shrimps.example.org", new HouseAddresses(house).Current());
    }

    private static Doorway Door(TemporaryFolder folder, string names, Instant now) =>
        new(new(OpenAddress.Parse(names).Address!, [], null, 5088), folder.Folder, new FakeClock(now));
}
