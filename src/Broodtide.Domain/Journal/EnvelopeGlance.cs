using System.Buffers.Text;
using NodaTime;

namespace Broodtide.Domain.Journal;

/// <summary>
/// Reads an envelope that lies just as <see cref="EnvelopeText.Write"/> lays it, its members one after the other: a phone
/// reads fifty thousand of them when it opens a journal of ten years. Whatever lies otherwise (members unknown here, an
/// escape, a letter beyond ASCII, anything wrong) is left to the reader that knows every form and names what is wrong.
/// </summary>
internal ref struct EnvelopeGlance
{
    // A whole number of so many figures is a long.
    private const int LongestNumber = 18;
    private const int IdentityLength = 36;

    private ReadOnlySpan<byte> _rest;
    private bool _seen;

    /// <summary>The envelope, the same as every other reader finds; none if it does not lie so.</summary>
    public static Envelope? Read(ReadOnlySpan<byte> utf8)
    {
        var glance = new EnvelopeGlance { _rest = utf8, _seen = true };
        return glance.Read();
    }

    private Envelope? Read()
    {
        Expect("{\"author\":{\"name\":\""u8);
        var name = Text();
        var software = Next(",\"version\":\""u8) ? Text() : null;
        Expect("},\"body\":\""u8);
        var body = Hash();
        Correction? correction = null;
        Aim(",\"erases\":\""u8, CorrectionKind.Erases, ref correction);
        Expect(",\"happened\":[\""u8);
        var earliest = Moment();
        Expect(",\""u8);
        var latest = Moment();
        Expect("],\"id\":\""u8);
        var id = Identity();
        Expect(",\"kind\":\""u8);
        var kind = Text();
        Digest? previous = Next(",\"previous\":\""u8) ? Hash() : null;
        Aim(",\"replaces\":\""u8, CorrectionKind.Replaces, ref correction);
        Expect(",\"replica\":\""u8);
        var replica = Identity();
        Aim(",\"retracts\":\""u8, CorrectionKind.Retracts, ref correction);
        Expect(",\"seq\":"u8);
        var sequence = Number();
        Expect(",\"version\":"u8);
        var version = Number();
        Expect(",\"written\":{\"at\":\""u8);
        var written = Moment();
        Expect(",\"zone\":\""u8);
        var zone = Text();
        Expect("}}"u8);
        return
            _seen
            && _rest.IsEmpty
            && latest >= earliest
            && kind is { Length: > 0 and <= EnvelopeText.LongestKind }
            && version <= int.MaxValue
            && (sequence == 1) == (previous is null)
            ? new()
            {
                Id = new(id),
                Replica = new(replica),
                Sequence = sequence,
                Author = new(name, software),
                Written = written,
                Zone = zone,
                Happened = Happened.Between(earliest, latest),
                Kind = kind,
                Version = (int)version,
                Correction = correction,
                Previous = previous,
                Body = body,
            }
            : null;
    }

    private bool Next(ReadOnlySpan<byte> wanted)
    {
        if (!_rest.StartsWith(wanted))
        {
            return false;
        }

        _rest = _rest[wanted.Length..];
        return true;
    }

    private void Expect(ReadOnlySpan<byte> wanted) => _seen = _seen && Next(wanted);

    private void Aim(ReadOnlySpan<byte> wanted, CorrectionKind kind, ref Correction? correction)
    {
        if (_seen && Next(wanted))
        {
            // An entry does one thing to one other entry.
            _seen = correction is null;
            correction = new(kind, new(Identity()));
        }
    }

    // To the mark at its end, which is passed.
    private ReadOnlySpan<byte> Quoted()
    {
        var end = _seen ? _rest.IndexOf((byte)'"') : -1;
        if (end < 0)
        {
            _seen = false;
            return default;
        }

        var text = _rest[..end];
        _rest = _rest[(end + 1)..];
        return text;
    }

    private string Text()
    {
        var text = Quoted();
        _seen = _seen && !text.ContainsAnyExceptInRange((byte)' ', (byte)'~') && !text.Contains((byte)'\\');
        return _seen ? SharedText.Of(text) : "";
    }

    private Guid Identity()
    {
        var text = Quoted();
        _seen =
            Utf8Parser.TryParse(text, out Guid id, out var read, 'D')
            && read == IdentityLength
            && text.Length == IdentityLength
            && _seen;
        return id;
    }

    private Digest Hash()
    {
        _seen = Digest.TryParse(Quoted(), out var hash) && _seen;
        return hash;
    }

    private Instant Moment()
    {
        _seen = UtcText.TryParse(Quoted(), out var instant) && _seen;
        return instant;
    }

    private long Number()
    {
        var length = _rest.IndexOfAnyExceptInRange((byte)'0', (byte)'9');
        if (!_seen || length is < 1 or > LongestNumber || _rest[0] == '0')
        {
            _seen = false;
            return 0;
        }

        var number = 0L;
        foreach (var figure in _rest[..length])
        {
            number = (number * 10) + (figure - '0');
        }

        _rest = _rest[length..];
        return number;
    }
}
