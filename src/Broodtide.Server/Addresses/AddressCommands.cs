using System.CommandLine;
using System.Text.Json;
using Broodtide.Server.Opening;
using Broodtide.Server.Stores;
using Broodtide.Server.Words;
using Broodtide.Storage.Households;
using Broodtide.Units;
using Broodtide.Workbench.Sharing;
using NodaTime;
using NodaTime.Text;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Addresses;

/// <summary>The command "address": where the house is, and moving it without leaving entries behind.</summary>
internal static class AddressCommands
{
    private const int Refused = 2;
    private const int Failed = 3;

    /// <param name="data">Where the house lies.</param>
    /// <param name="choice">Whether it lies in a database.</param>
    /// <param name="reports">What the phones' stores last said.</param>
    public static Command For(
        Option<DirectoryInfo> data,
        StoreChoice choice,
        Func<HouseStore, IReadOnlyList<StoreReport>> reports
    )
    {
        var json = new Option<bool>("--json") { Description = "Print as JSON." };
        var target = new Argument<string>("address")
        {
            Description =
                "The new name, with a port if that changes too, such as broodtide.home.arpa or shelf.local:8443.",
        };
        var force = new Option<bool>("--force")
        {
            Description = "Move although a phone may still hold entries that the server lacks.",
        };
        var show = new Command("show", "Shows the address and those before it.") { json };
        show.SetAction(parsed =>
            WithHouse(
                parsed.GetRequiredValue(data),
                choice.Read(parsed),
                house => Show(house, parsed.GetValue(json))
            )
        );
        var move = new Command(
            "move",
            "Moves the house to another address; refused while a phone may hold entries that the server lacks."
        )
        {
            target,
            force,
        };
        move.SetAction(parsed =>
            WithHouse(
                parsed.GetRequiredValue(data),
                choice.Read(parsed),
                house => Move(house, reports(house), parsed.GetRequiredValue(target), parsed.GetValue(force))
            )
        );
        return new Command("address", "The address under which phones know the house.") { show, move };
    }

    private static int Show(HouseStore house, bool asJson)
    {
        var addresses = new HouseAddresses(house);
        var told = new HouseTold(addresses.Current(), addresses.Former(), null);
        if (asJson)
        {
            Console.Out.WriteLine(JsonSerializer.Serialize(told, HouseToldJson.Default.HouseTold));
            return 0;
        }

        Tell(
            Console.Out,
            told.Address is { } address
                ? new("address-is", new Argument("address", address))
                : new("address-none")
        );
        foreach (var former in told.Former)
        {
            Tell(Console.Out, new("address-was", new Argument("address", former)));
        }

        return 0;
    }

    private static int Move(HouseStore house, IReadOnlyList<StoreReport> phones, string typed, bool isForced)
    {
        var addresses = new HouseAddresses(house);
        if (addresses.Current() is not { } current)
        {
            return Refuse(new("address-none"));
        }

        var (target, trouble) = OpenAddress.Parse(typed, new Uri(current).Port);
        if (target is null)
        {
            return Refuse(trouble!);
        }

        if (current == target.Origin)
        {
            return Refuse(new("address-same", new Argument("address", current)));
        }

        var holding = phones.Count(phone => phone.MayHold);
        var isRefused = holding > 0 && !isForced;
        foreach (var phone in phones)
        {
            Tell(isRefused ? Console.Error : Console.Out, Line(phone));
        }

        if (isRefused)
        {
            return Refuse(
                new("address-waits", new Argument("count", holding), new Argument("address", current))
            );
        }

        addresses.Move(target.Origin, SystemClock.Instance.GetCurrentInstant());
        Tell(Console.Out, new("address-moved", new Argument("address", target.Origin)));
        return 0;
    }

    private static Remark Line(StoreReport phone) =>
        phone is { Waiting: { } waiting, At: { } at }
            ? new(
                "phone-waits",
                new Argument("phone", phone.Phone),
                new Argument("waiting", waiting),
                new Argument("at", InstantPattern.General.Format(at))
            )
            : new("phone-silent", new Argument("phone", phone.Phone));

    private static int WithHouse(DirectoryInfo data, string? database, Func<HouseStore, int> work)
    {
        data.Create();
        try
        {
            return HouseAtHand.With(data, database, work);
        }
        catch (Storage.StoreUnusableException trouble)
        {
            Console.Error.WriteLine(StoreChoice.Sentence(trouble));
            return Failed;
        }
    }

    private static int Refuse(Remark reason)
    {
        Tell(Console.Error, reason);
        return Refused;
    }

    private static void Tell(TextWriter to, Remark remark) => to.WriteLine(Said.Sentence(remark));
}
