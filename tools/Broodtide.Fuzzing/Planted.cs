using System.Runtime.CompilerServices;

namespace Broodtide.Fuzzing;

/// <summary>Five small readers, each with a fault of a kind that readers have. A fuzzer that does not find them finds nothing.</summary>
internal static class Planted
{
    // A length is believed that the rest does not have.
    public static void LengthBelieved(byte[] bytes)
    {
        if (bytes is [(byte)'B', (byte)'R', (byte)'O', (byte)'D', var length, ..] && length > 32)
        {
            _ = bytes.AsSpan(5, length).ToArray();
        }
    }

    // Brackets are followed as deep as they go.
    public static void DeepWithoutEnd(byte[] bytes)
    {
        var at = 0;
        Descend(bytes, ref at, 0);
    }

    private static void Descend(byte[] bytes, ref int at, int depth)
    {
        if (depth > 40)
        {
            RuntimeHelpers.EnsureSufficientExecutionStack();
            throw new InsufficientExecutionStackException("Deeper than the stack of a small thread.");
        }

        while (at < bytes.Length)
        {
            switch (bytes[at++])
            {
                case (byte)'(':
                    Descend(bytes, ref at, depth + 1);
                    break;
                case (byte)')':
                    return;
                default:
                    break;
            }
        }
    }

    // Seven bits a byte, and nobody counts the bytes.
    public static void NumberTooLong(byte[] bytes)
    {
        var (value, shift) = (0, 0);
        foreach (var one in bytes)
        {
            value = checked(value + ((one & 127) * (1 << shift)));
            shift += 7;
            if (one < 128 || shift > 28)
            {
                break;
            }
        }
    }

    // Divided by a scale that somebody gives.
    public static void ScaleOfZero(byte[] bytes)
    {
        var met = 0;
        foreach (var one in bytes)
        {
            switch (met)
            {
                case 0:
                    met = one == 's' ? 1 : 0;
                    break;
                case 1:
                    met = one == 'c' ? 2 : 0;
                    break;
                case 2:
                    met = one == '=' ? 3 : 0;
                    break;
                default:
                    _ = 1000 / (one - '0');
                    return;
            }
        }
    }

    // Names are put into a table that takes each once.
    public static void NameTwice(byte[] bytes)
    {
        var names = new Dictionary<string, int>(StringComparer.Ordinal);
        var first = 0;
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] == (byte)';')
            {
                if (i - first == 3)
                {
                    names.Add(Convert.ToHexString(bytes, first, 3), i);
                }

                first = i + 1;
            }
        }
    }
}
