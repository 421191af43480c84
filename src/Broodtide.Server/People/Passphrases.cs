using Broodtide.Storage.Households;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace Broodtide.Server.People;

/// <summary>
/// The framework's own hash of passphrases (PBKDF2, HMAC-SHA-512, a random salt for each), at the strength that is
/// asked for today.
/// </summary>
internal sealed class Passphrases
{
    /// <summary>
    /// Rounds for PBKDF2 with HMAC-SHA-512: OWASP Password Storage Cheat Sheet, section PBKDF2, as of 2026. A hash
    /// made with fewer is made anew when its person signs in.
    /// </summary>
    public const int Rounds = 220_000;

    private readonly PasswordHasher<Person> _hasher;
    private readonly Lazy<string> _nobodys;

    public Passphrases()
        : this(Rounds) { }

    /// <summary>With other rounds, to see an older hash made anew.</summary>
    public Passphrases(int rounds)
    {
        _hasher = new PasswordHasher<Person>(
            Options.Create(
                new PasswordHasherOptions
                {
                    CompatibilityMode = PasswordHasherCompatibilityMode.IdentityV3,
                    IterationCount = rounds,
                }
            )
        );
        _nobodys = new Lazy<string>(() => Hash(Guid.NewGuid().ToString()));
    }

    public string Hash(string passphrase) => _hasher.HashPassword(null!, passphrase);

    /// <summary>
    /// Whether a passphrase is a person's. An unknown person costs the same work as a known one with a wrong
    /// passphrase, so that the time taken does not tell who is in the house.
    /// </summary>
    public Checked Check(Person? person, string passphrase)
    {
        var known = person?.PassphraseHash;
        var result = _hasher.VerifyHashedPassword(null!, known ?? _nobodys.Value, passphrase);
        return known is null || result is PasswordVerificationResult.Failed ? Checked.Wrong
            : result is PasswordVerificationResult.SuccessRehashNeeded ? Checked.RightButWeak
            : Checked.Right;
    }

    /// <summary>Makes the hash that stands for nobody, so that the first unknown name costs no more than the next.</summary>
    public void Prepare() => _ = _nobodys.Value;
}

/// <summary>What a passphrase turned out to be.</summary>
internal enum Checked
{
    Wrong,
    Right,

    /// <summary>Right, and its hash is to be made anew.</summary>
    RightButWeak,
}
