using System.Text;
using System.Text.Json;
using Broodtide.Domain;
using Broodtide.Domain.Journal;

namespace Broodtide.Fuzzing;

/// <summary>Entries, bodies, lines of a journal file, canonical JSON.</summary>
internal static class EntryReader
{
    public static void Read(byte[] bytes)
    {
        var (choice, rest) = Readers.Choose(bytes, 4);
        switch (choice)
        {
            case 0:
                var end = Array.IndexOf(rest, (byte)'\n') is >= 0 and var at ? at : rest.Length;
                if (
                    Entry.Read(new(rest.AsMemory(0, end), rest.AsMemory(Math.Min(rest.Length, end + 1)))) is
                    { Succeeded: true } read
                )
                {
                    Use(read.Value);
                }

                break;
            case 1:
                Facts(rest);
                break;
            case 2:
                JournalLines.Salvage(Encoding.UTF8.GetString(rest).Split('\n'));
                break;
            default:
                Canonical(rest);
                break;
        }
    }

    // A body that its envelope vouches for: the hash is made here, or nothing would ever come past it.
    private static void Facts(byte[] bytes)
    {
        if (bytes.Length < 2)
        {
            return;
        }

        var read = VouchedFor.Entry(bytes[0], bytes[1], bytes.AsSpan(2));
        if (read.Succeeded)
        {
            Use(read.Value);
        }
        else if (read.Reason.Code is not ("body-not-canonical" or "body-length"))
        {
            throw new InvalidOperationException($"An envelope of our own is refused: {read.Reason}");
        }
    }

    // What is done with an entry as soon as it is taken in.
    private static void Use(Entry entry)
    {
        var fact = entry.Fact;
        if (fact is not (UnknownFact or UnreadableFact or ErasedFact))
        {
            var kind = Kinds.Of(fact);
            var again = Kinds.Read(kind.Name, kind.Version, kind.Write(fact));
            if (again is UnreadableFact)
            {
                throw new InvalidOperationException("What was written from a fact cannot be read.");
            }
        }

        var account = Account.Of([entry]);
        _ = new House(account);
        _ = account.Conflicts();
    }

    private static void Canonical(byte[] bytes)
    {
        byte[] canonical;
        try
        {
            canonical = CanonicalJson.From(bytes);
        }
        catch (Exception refused) when (refused is JsonException or FormatException or ArgumentException)
        {
            return;
        }

        if (!CanonicalJson.Is(canonical) || !CanonicalJson.From(canonical).AsSpan().SequenceEqual(canonical))
        {
            throw new InvalidOperationException("Canonical JSON of canonical JSON is another.");
        }
    }
}
