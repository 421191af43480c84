using Broodtide.Domain;

namespace Broodtide.Workbench.Sharing;

/// <summary>
/// The replicas of one phone: one for each person who uses it, and those that were ended because the phone was put
/// back or revoked. What was written in any of them stays that person's.
/// </summary>
/// <param name="Replica">The replica.</param>
/// <param name="Person">Whose it is; none before anybody has signed in here.</param>
/// <param name="IsEnded">Whether nothing more is written in it.</param>
public sealed record PhoneStore(ReplicaId Replica, PersonId? Person, bool IsEnded)
{
    private const int Length = 16 + 16 + 1;

    internal static byte[] Write(IReadOnlyList<PhoneStore> stores)
    {
        var bytes = new byte[stores.Count * Length];
        for (var at = 0; at < stores.Count; at++)
        {
            var row = bytes.AsSpan(at * Length, Length);
            stores[at].Replica.Value.TryWriteBytes(row, bigEndian: true, out _);
            stores[at].Person.GetValueOrDefault().Value.TryWriteBytes(row[16..], bigEndian: true, out _);
            row[32] = stores[at].IsEnded ? (byte)1 : (byte)0;
        }

        return bytes;
    }

    internal static List<PhoneStore> Read(byte[] bytes)
    {
        var stores = new List<PhoneStore>();
        for (var at = 0; at + Length <= bytes.Length; at += Length)
        {
            var row = bytes.AsSpan(at, Length);
            var person = new Guid(row[16..32], bigEndian: true);
            stores.Add(
                new PhoneStore(
                    new ReplicaId(new Guid(row[..16], bigEndian: true)),
                    person == Guid.Empty ? null : new PersonId(person),
                    row[32] == 1
                )
            );
        }

        return stores;
    }
}
