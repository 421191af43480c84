using System.Security.Cryptography;
using System.Text;
using Broodtide.Storage.Households;

namespace Broodtide.Server.People;

/// <summary>
/// The code with which the first owner is made. It is held in memory alone, is printed where the server was started,
/// and is new at every start until there is an owner.
/// </summary>
internal sealed class FirstStart(HousePeople people)
{
    private readonly string _code = Codes.New();

    /// <summary>The code, while nobody owns the house.</summary>
    public string? Code => people.HasOwner() ? null : _code;

    /// <summary>Whether a typed code is the one; never, once there is an owner.</summary>
    public bool Opens(string typed) =>
        CryptographicOperations.FixedTimeEquals(
            Encoding.UTF8.GetBytes(Codes.Read(typed)),
            Encoding.UTF8.GetBytes(_code)
        ) && !people.HasOwner();
}
