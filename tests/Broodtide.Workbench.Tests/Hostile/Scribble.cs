using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Demo;
using NodaTime;

namespace Broodtide.Workbench.Tests.Hostile;

/// <summary>
/// Journals that no keeper would write: an invented house's entries and every kind's examples, some left out, some twice,
/// with other numbers, other times and other subjects in them, whole as entries all the same.
/// </summary>
internal static partial class Scribble
{
    private static readonly double[] Edges =
    [
        0,
        -1,
        1,
        1e-9,
        0.5,
        7,
        35,
        100,
        1e6,
        1e15,
        1e308,
        -1e308,
        5e-324,
        int.MaxValue,
        (double)long.MaxValue,
    ];

    public static Instant Now { get; } = Instant.FromUtc(2026, 11, 20, 18, 0);

    public static DateTimeZone Zone { get; } = DateTimeZoneProviders.Tzdb["Europe/Zurich"];

    private static readonly Lazy<(Draft Draft, string Body)[]> Pool = new(() =>
        [
            .. InventedHouse
                .Drafts(Now, Zone)
                .Select(draft => (draft, Encoding.UTF8.GetString(Kinds.Of(draft.Fact!).Write(draft.Fact!)))),
        ]
    );

    /// <summary>A journal by a seed.</summary>
    /// <param name="seed">The seed.</param>
    /// <param name="wild">How often, in a hundred, a number or subject is another.</param>
    public static IReadOnlyList<Entry> Journal(int seed, int wild)
    {
        var random = new Random(seed);
        var pool = Pool.Value;
        var subjects = pool.SelectMany(part => Subjects.Matches(part.Body).Select(match => match.Value))
            .Distinct()
            .ToArray();
        var replica = new ReplicaId(Some(random));
        var entries = new List<Entry>();
        foreach (var (draft, body) in pool)
        {
            for (
                var times = random.Next(100) switch
                {
                    < 15 => 0,
                    < 95 => 1,
                    _ => 2,
                };
                times > 0;
                times--
            )
            {
                var kind = Kinds.Of(draft.Fact!);
                var changed = Numbers.Replace(
                    Subjects.Replace(
                        body,
                        match =>
                            random.Next(100) < wild ? subjects[random.Next(subjects.Length)] : match.Value
                    ),
                    match => random.Next(100) < wild ? ":" + Number(random) : match.Value
                );
                var salted = Salted(changed);
                entries.Add(
                    Sealed(
                        salted,
                        new Envelope
                        {
                            Id = new EntryId(Some(random)),
                            Replica = replica,
                            Sequence = entries.Count + 1,
                            Author = new Author("Keeper"),
                            Written = Now,
                            Zone = Zone.Id,
                            Happened =
                                random.Next(100) < wild
                                    ? Happened.At(Now + Duration.FromHours(random.Next(-3000, 200)))
                                    : draft.Happened,
                            Kind = kind.Name,
                            Version = kind.Version,
                            Previous = entries.Count == 0 ? null : entries[^1].Digest,
                            Body = Digest.Of(salted),
                        }
                    )
                );
            }
        }

        return entries;
    }

    private static Entry Sealed(byte[] salted, Envelope envelope)
    {
        var read = Entry.Read(new(EnvelopeText.Write(envelope), salted));
        return read.Succeeded ? read.Value : throw new InvalidOperationException(read.Reason.ToString());
    }

    private static byte[] Salted(string body) =>
        [.. new byte[EntryBytes.SaltLength], .. CanonicalJson.From(Encoding.UTF8.GetBytes(body))];

    private static Guid Some(Random random)
    {
        var bytes = new byte[16];
        random.NextBytes(bytes);
        return new Guid(bytes);
    }

    private static string Number(Random random) =>
        (
            random.Next(3) == 0 ? Edges[random.Next(Edges.Length)]
            : random.Next(2) == 0 ? random.Next(0, 500)
            : Math.Round(Math.Exp((random.NextDouble() * 20) - 8), 3)
        ).ToString("R", CultureInfo.InvariantCulture);

    [GeneratedRegex("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")]
    private static partial Regex Subjects { get; }

    [GeneratedRegex(":-?[0-9][0-9.eE+-]*")]
    private static partial Regex Numbers { get; }
}
