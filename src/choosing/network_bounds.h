#pragma once
#include "choosing/condition.h"
#include "chronology/chronology.h"

namespace saggar::choosing {

// The point of an event; of a kind that has but one moment under that name, that.
chronology::Node nodeOf(const chronology::Events& events, RecordIndex record, records::Field field,
                        Bounds::End end);

// The days of events as the network of dates has them.
class NetworkBounds final : public Bounds {
 public:
  NetworkBounds(const chronology::Chronology& chronology, chronology::BoundsOf which)
      : chronology_(chronology), which_(which) {}
  dates::Bounds of(RecordIndex record, records::Field field, End end) const override;
  dates::Reading reading() const override {
    return which_ == chronology::BoundsOf::likely ? dates::Reading::Plain : dates::Reading::Wide;
  }

 private:
  const chronology::Chronology& chronology_;
  chronology::BoundsOf which_;
};

}  // namespace saggar::choosing
