using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Sharing;
using NodaTime;

namespace Broodtide.Workbench.Tests.Sharing;

/// <summary>A fault that is planted to see that it is found.</summary>
internal enum Planted
{
    None,

    /// <summary>A phone strikes off what it has sent before the answer has come.</summary>
    StruckOffUnanswered,

    /// <summary>The house goes on under its old replica after it was put back.</summary>
    SameReplicaAfterRestore,
}

/// <summary>
/// One random course of things over several phones, persons and a house, played on the real code, and what must
/// hold at its end. The seed is the whole of it.
/// </summary>
internal sealed class Schedule : IDisposable
{
    private const int Steps = 40;
    private const int MostRounds = 12;

    private static readonly Visitor Ada = Person(1, "Ada", Role.Owner);
    private static readonly Visitor Ben = Person(2, "Ben", Role.Keeper);
    private static readonly Visitor Cleo = Person(3, "Cleo", Role.Helper);
    private static readonly Visitor[] People = [Ada, Ben, Cleo];

    private readonly Random _dice;
    private readonly ModelHouse _house;
    private readonly List<ModelPhone> _phones = [];
    private readonly List<Entry> _written = [];
    private readonly Dictionary<ReplicaId, PersonId> _whose = [];
    private readonly HashSet<Digest> _goneWithTheHouse = [];
    private readonly List<(ModelPhone Phone, Digest Digest)> _struckOff = [];
    private readonly Planted _planted;
    private int _restores;
    private (IReadOnlyList<Entry> Entries, MemoryHouse Memory)? _copy;

    private Schedule(int seed, Planted planted)
    {
        _dice = new Random(seed);
        _planted = planted;
        _house = new ModelHouse(People, planted is Planted.SameReplicaAfterRestore);
    }

    /// <summary>Plays it. Answers what is wrong, nothing if all is well, and what it came to.</summary>
    public static async Task<(string? Wrong, Course Course)> PlayAsync(
        int seed,
        Planted planted = Planted.None
    )
    {
        using var schedule = new Schedule(seed, planted);
        try
        {
            await schedule.PlayAsync();
            return (null, schedule.Course);
        }
        catch (Wrong wrong)
        {
            return ($"seed {seed}: {wrong.Message}", schedule.Course);
        }
    }

    private Course Course
    {
        get
        {
            var held = _house.Memory.HeldBack();
            return new Course(
                _written.Count,
                _restores,
                held.Count(one => one.Decision is Decision.LetIn),
                held.Count(one => one.Decision is Decision.Discarded),
                _house.Memory.Marks().Count(mark => mark.Sort is MarkSort.Brought),
                _goneWithTheHouse.Count
            );
        }
    }

    public void Dispose()
    {
        _house.Dispose();
        _phones.ForEach(phone => phone.Dispose());
    }

    private async Task PlayAsync()
    {
        foreach (var person in (Visitor[])[Ada, Ben, Cleo, People[_dice.Next(People.Length)]])
        {
            _phones.Add(
                await ModelPhone.MakeAsync(
                    _house.AskAsync,
                    person,
                    new ModelClock(Duration.FromMinutes(_dice.Next(-3, 4))),
                    _planted is Planted.StruckOffUnanswered
                )
            );
        }

        for (var step = 0; step < Steps; step++)
        {
            await StepAsync();
            await StruckOffMeansHeldAsync();
        }

        await ComeToRestAsync();
        await CheckAsync();
    }

    private async Task StepAsync()
    {
        var phone = _phones[_dice.Next(_phones.Count)];
        switch (_dice.Next(20))
        {
            case < 5:
                Note(
                    phone,
                    await phone.NoteAsync([.. Enumerable.Range(0, _dice.Next(1, 4)).Select(n => $"{n}")])
                );
                break;
            case 5 or 6:
                await CorrectAsync(phone);
                break;
            case < 13:
                phone.Luck = Road;
                await phone.MeetAsync();
                phone.Luck = () => OnTheWay.Well;
                break;
            case 13:
                await phone.Link.ArriveAsync();
                break;
            case 14:
                await phone.RestartAsync();
                break;
            case 15:
                if (_dice.Next(4) == 0)
                {
                    _house.Restart();
                }
                else
                {
                    _written.Add(await _house.WriteAsync("by the house"));
                }

                break;
            case 16:
                _copy = await _house.CopyAsync();
                break;
            case 17 when _copy is { } copy:
                await PutBackAsync(copy);
                break;
            case 18:
                await phone.HandToAsync(People[_dice.Next(People.Length)]);
                break;
            case 19:
                await DecideAsync();
                break;
        }
    }

    private OnTheWay Road() =>
        _dice.Next(12) switch
        {
            0 => OnTheWay.RequestLost,
            1 => OnTheWay.AnswerLost,
            2 => OnTheWay.Doubled,
            3 => OnTheWay.Late,
            _ => OnTheWay.Well,
        };

    private async Task CorrectAsync(ModelPhone phone)
    {
        var held = await phone.Journal.ReadAllAsync();
        var targets = held.Where(entry =>
                phone.Visitor.Role > Role.Helper || _dice.Next(2) == 0 || IsOf(entry, phone)
            )
            .OrderBy(entry => _written.FindIndex(written => written.Digest == entry.Digest))
            .ToList();
        if (targets.Count > 0)
        {
            Note(
                phone,
                [
                    await phone.CorrectAsync(
                        targets[_dice.Next(targets.Count)].Id,
                        (CorrectionKind)_dice.Next(3)
                    ),
                ]
            );
        }
    }

    private bool IsOf(Entry entry, ModelPhone phone) =>
        _whose.TryGetValue(entry.Envelope.Replica, out var person) && person == phone.Visitor.Person;

    private void Note(ModelPhone phone, IReadOnlyList<Entry> written)
    {
        _written.AddRange(written);
        foreach (var entry in written)
        {
            _whose[entry.Envelope.Replica] = phone.Visitor.Person;
        }
    }

    private async Task PutBackAsync((IReadOnlyList<Entry> Entries, MemoryHouse Memory) copy)
    {
        var before = (await _house.Journal.ReadAllAsync()).Select(entry => entry.Digest).ToHashSet();
        await _house.PutBackAsync(copy);
        _restores++;
        // What nobody else held is gone with the house that was lost.
        before.ExceptWith(copy.Entries.Select(entry => entry.Digest));
        foreach (var phone in _phones)
        {
            before.ExceptWith(phone.Rows.Rows.Select(row => row.Digest));
        }

        _goneWithTheHouse.UnionWith(before);
        _struckOff.Clear();
        foreach (var phone in _phones)
        {
            _struckOff.AddRange(
                phone.Rows.Rows.Where(row => row.Acknowledged).Select(row => (phone, row.Digest))
            );
        }
    }

    private async Task DecideAsync()
    {
        switch (_dice.Next(3))
        {
            case 0 when _whose.Count > 0:
                var replica = _whose.Keys.ElementAt(_dice.Next(_whose.Count));
                await _house.Owner.RevokeAsync(Ada, [replica]);
                break;
            case 1:
                await _house.Owner.LetInAsync(Ada, await HeldBackAsync(1));
                break;
            default:
                await _house.Owner.DiscardAsync(Ada, await HeldBackAsync(1));
                break;
        }
    }

    private async Task<IReadOnlyList<Digest>> HeldBackAsync(int most) =>
        [
            .. (await _house.Owner.LookAsync(Ada))
                .Value.HeldBack.OrderBy(held => held.Sequence)
                .Take(most)
                .Select(held => held.Digest),
        ];

    // Nothing more is written; the road is good; the owner opens the refill and decides on everything.
    private async Task ComeToRestAsync()
    {
        foreach (var phone in _phones)
        {
            phone.Luck = () => OnTheWay.Well;
            await phone.Link.ArriveAsync();
        }

        _house.Restart();
        await _house.Owner.OpenRefillAsync(Ada, OwnersGate.UsualRefill);
        var before = "";
        for (var round = 0; round < MostRounds; round++)
        {
            foreach (var phone in _phones)
            {
                foreach (var person in Users(phone))
                {
                    await phone.HandToAsync(person);
                    var outcome = await phone.MeetAsync();
                    Require(
                        outcome.Meeting is Meeting.Agreed,
                        $"a meeting of {person.Name} ends with {outcome.Meeting} {outcome.Refusal}"
                    );
                }
            }

            await _house.Owner.LetInAsync(Ada, await HeldBackAsync(int.MaxValue));
            var now = await ShapeAsync();
            if (now == before)
            {
                return;
            }

            before = now;
        }

        throw new Wrong("the stores do not come to rest");
    }

    private static IEnumerable<Visitor> Users(ModelPhone phone) =>
        People.Where(person =>
            person.Person == phone.Visitor.Person
            || phone.Journal.Stores.Any(store => store.Person == person.Person)
        );

    private async Task<string> ShapeAsync()
    {
        var counts = new List<string> { $"{(await _house.Journal.ReadAllAsync()).Count}" };
        foreach (var phone in _phones)
        {
            counts.Add($"{phone.Rows.Rows.Count}/{await phone.Rows.CountWaiting()}");
        }

        return string.Join(' ', counts);
    }

    // At any time: what a phone no longer keeps for sending is on the disk of the house.
    private async Task StruckOffMeansHeldAsync()
    {
        var held = (await _house.Journal.ReadAllAsync()).Select(entry => entry.Digest).ToHashSet();
        held.UnionWith(_house.Memory.HeldBack().Select(one => one.Digest));
        foreach (var phone in _phones)
        {
            foreach (var row in phone.Rows.Rows.Where(row => row.Acknowledged && !held.Contains(row.Digest)))
            {
                Require(
                    _struckOff.Contains((phone, row.Digest)),
                    $"number {row.Seq} was struck off, but the house does not hold it"
                );
            }
        }
    }

    private async Task CheckAsync()
    {
        var house = (await _house.Journal.ReadAllAsync()).ToDictionary(entry => entry.Digest);
        var discarded = _house
            .Memory.HeldBack()
            .Where(held => held.Decision is Decision.Discarded)
            .Select(held => held.Digest)
            .ToHashSet();
        NothingLost(house, discarded);
        NothingDoubled(house.Values);
        foreach (var (replica, person) in _house.Memory.Bindings())
        {
            Require(_whose[replica] == person, $"replica {replica} is bound to somebody else");
        }

        var told = Told(house.Values);
        foreach (var phone in _phones)
        {
            var here = (await phone.Journal.ReadAllAsync()).ToDictionary(entry => entry.Digest);
            Require(
                here.Keys.Where(digest => !discarded.Contains(digest)).ToHashSet().SetEquals(house.Keys),
                $"a phone holds {here.Count} entries, the house {house.Count}, {discarded.Count} discarded"
            );
            foreach (var entry in house.Values)
            {
                var same = here[entry.Digest];
                Require(
                    same.HasBody == entry.HasBody || !discarded.IsSubsetOf(house.Keys),
                    $"entry {entry.Id} has facts on one side only"
                );
            }

            Require(discarded.Count > 0 || Told(here.Values) == told, "a phone tells another story");
            Require(await phone.Rows.CountWaiting() == 0, "something still waits on a phone");
        }

        Require(
            _house.Memory.Refusals().Count == 0,
            $"an honest phone was refused: {string.Join(", ", _house.Memory.Refusals())}"
        );
        foreach (var report in _house.Memory.Reports())
        {
            Require(
                report.Waiting == 0,
                $"the house believes that {report.Waiting} wait in {report.Replica}"
            );
        }
    }

    private void NothingLost(Dictionary<Digest, Entry> house, HashSet<Digest> discarded)
    {
        foreach (var entry in _written)
        {
            Require(
                house.ContainsKey(entry.Digest)
                    || discarded.Contains(entry.Digest)
                    || _goneWithTheHouse.Contains(entry.Digest),
                $"number {entry.Envelope.Sequence} of {entry.Envelope.Author.Name} is lost"
            );
        }

        Require(
            house.Keys.All(digest => _written.Exists(entry => entry.Digest == digest)),
            "the house holds what nobody wrote"
        );
    }

    private static void NothingDoubled(IReadOnlyCollection<Entry> house)
    {
        foreach (var conflict in Account.Of(house).Conflicts())
        {
            Require(
                conflict.Code is not ("number-twice" or "identity-twice" or "chain-broken"),
                conflict.ToString()
            );
        }
    }

    private static string Told(IReadOnlyCollection<Entry> entries) =>
        string.Join(
            '\n',
            Account
                .Of(entries)
                .Occurrences.Select(told => $"{told.Id} {told.Told.Digest} {told.Fact.GetType().Name}")
        );

    private static void Require(bool holds, string what)
    {
        if (!holds)
        {
            throw new Wrong(what);
        }
    }

    private static Visitor Person(int number, string name, Role role) =>
        new(new PersonId(KeptJournal.Fixed(number)), name, role);

    private sealed class Wrong(string message) : Exception(message);
}

/// <summary>What one schedule came to.</summary>
internal sealed record Course(int Written, int Restores, int LetIn, int Discarded, int Brought, int Gone)
{
    public static Course operator +(Course left, Course right) =>
        new(
            left.Written + right.Written,
            left.Restores + right.Restores,
            left.LetIn + right.LetIn,
            left.Discarded + right.Discarded,
            left.Brought + right.Brought,
            left.Gone + right.Gone
        );
}
